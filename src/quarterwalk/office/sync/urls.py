"""Where phones speak with the office."""

from __future__ import annotations

from django.urls import path

from quarterwalk.office.sync import views

urlpatterns = [
    path("pair", views.pair, name="sync-pair"),
    path("day", views.day, name="sync-day"),
    path("cards/<str:sha256>", views.card, name="sync-card"),
    path("entries", views.entries, name="sync-entries"),
    path("walks", views.walks, name="sync-walks"),
]
