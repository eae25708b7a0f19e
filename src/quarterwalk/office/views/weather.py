"""Weather handed in, and stations taken away."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods

from quarterwalk.office import clock
from quarterwalk.office.access_season import station_led, stations_of
from quarterwalk.office.forms.decision import SureForm
from quarterwalk.office.forms.weather import WeatherForm
from quarterwalk.office.kept_weather import weather_of
from quarterwalk.office.pages.weather import away_page, taken_away, weather_page, weather_taken
from quarterwalk.office.queries.standing import fields_by_station, why_no_stage
from quarterwalk.office.services.weather import remove_station, take_weather
from quarterwalk.office.views.here import led_here
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_http_methods(["GET", "POST"])
def weather_import(request: HttpRequest) -> HttpResponse:
    """Take weather from a file, and show what is here."""
    part = led_here(request)
    here = weather_of(part.district_id).stations
    named = [each.station for each in here]
    form = WeatherForm(named, sent(request), request.FILES or None)
    if form.is_valid() and form.told is not None:
        with form.refusals():
            done = take_weather(district=part.district, weather=form.told)
            why = why_no_stage(part.district, clock.today(part.district))
            tell(request, *weather_taken(done, form.told, why))
            return redirect("weather-import")
    page = weather_page(form, stations_of(part).defer("days"), here)
    return show(request, "imports/weather.html", page, form)


@require_http_methods(["GET", "POST"])
def weather_remove(request: HttpRequest, pk: int) -> HttpResponse:
    """Take a station away with all its days, once it is confirmed."""
    station = station_led(signed_in(request), pk)
    form = SureForm(sent(request))
    if form.is_valid():
        remove_station(station=station)
        tell(request, taken_away(station, left=station.district.stations.exists()))
        return redirect("weather-import")
    fields = fields_by_station(station, clock.today(station.district))
    others = station.district.stations.exclude(pk=pk).exists()
    return show(request, "imports/station.html", away_page(station, fields, others=others), form)
