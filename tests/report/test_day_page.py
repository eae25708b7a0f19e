"""A day's reports, the most urgent first."""

from __future__ import annotations

from quarterwalk.report import Linked, day_page
from tests.call.made import call, reading
from tests.report.made_reports import PAST_BOTH, page_words, report, shown


def linked(read, field, **dates):
    return Linked(report(read, call(read, **dates), field=field), f"{field}.html", f"{field}.pdf")


def day():
    return [
        linked(reading(0, healthy=300), "Pump 4"),
        linked(reading(5), "Late Forty", bloom=5),
        linked(reading(20, healthy=300), "Sand Draw"),
        linked(reading(34, **PAST_BOTH), "Gin Road"),
    ]


def test_the_most_urgent_stands_first():
    words = page_words(day_page(day()))
    places = [words.index(name) for name in ("Gin Road", "Sand Draw", "Late Forty", "Pump 4")]
    assert places == sorted(places)
    assert "4 walks: Treat 1, Look sooner 1, No call 1, Hold 1" in words


def test_each_field_shows_its_verdict_headline_and_next_look():
    words = page_words(day_page(day()))
    for each in day():
        assert each.report.headline in words
        assert each.report.verdict_words in words
        assert " ".join(each.report.next_look) in words


def test_links_lead_to_page_and_pdf_and_say_of_which_field():
    links = [a for tag, a in shown(day_page(day())).elements if tag == "a"]
    assert [a["href"] for a in links[:3]] == ["Gin Road.html", "Gin Road.html", "Gin Road.pdf"]
    assert all("Gin Road" in (a.get("aria-label") or "") for a in links[1:3])


def test_a_report_without_a_link_has_none():
    alone = [Linked(each.report) for each in day()]
    assert not [a for tag, a in shown(day_page(alone)).elements if tag == "a"]


def test_a_day_without_walks_says_so():
    assert "No walk was made." in page_words(day_page([]))


def test_walks_of_several_days_show_their_days():
    read = reading(0, healthy=300)
    two = [Linked(report(read, call(read, day=day), day=day)) for day in (10, 12)]
    words = page_words(day_page(two))
    assert "Reports of Saturday 20 June to Monday 22 June 2026" in words
    assert "Monday 22 June 2026" in words.split("2 walks")[1]
