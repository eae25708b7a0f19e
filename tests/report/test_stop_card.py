"""The card: its limits are the plan's, its rates the exact ones, on one sheet."""

from __future__ import annotations

import io
import re
from collections import Counter
from html.parser import HTMLParser

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from quarterwalk.plan import NOMINAL, Look, Row, course_of, outcomes
from quarterwalk.plan.columns import columns
from quarterwalk.report.pdf import Paper
from quarterwalk.report.stop_card import (
    EACH_LOOK_ROWS,
    ONE_LOOK_ROWS,
    StopCard,
    runs,
)
from quarterwalk.report.stop_card_back import of_100, of_100_walks, true_fields
from quarterwalk.report.stop_card_page import stop_card_page
from quarterwalk.report.stop_card_pdf import stop_card_pdf
from tests.report.made_cards import BOTH, CARDS, HOLD, card_cost, made_card

Grid = list[list[str]]
WITH_SQUARES = [case for case in CARDS if case[0] in ("southern-high-plains", "kansas")]
ALONE = [case for case in CARDS if case not in WITH_SQUARES]


class Tables(HTMLParser):
    """The body of each table of a page, cells that reach over rows repeated in each."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tables: list[Grid] = []
        self._open: dict[int, tuple[str, int]] = {}
        self._body, self._cell, self._span = False, False, 1
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "tbody":
            self._body, self._open = True, {}
            self.tables.append([])
        elif tag == "tr" and self._body:
            self.tables[-1].append([])
            self._fill()
        elif tag in ("td", "th") and self._body:
            self._cell, self._span = True, int(dict(attrs).get("rowspan") or 1)

    def handle_endtag(self, tag: str) -> None:
        if tag == "tbody":
            self._body = False

    def handle_data(self, data: str) -> None:
        if self._cell:
            row = self.tables[-1][-1]
            if self._span > 1:
                self._open[len(row)] = (data, self._span - 1)
            row.append(data)
            self._cell = False
            self._fill()

    def _fill(self) -> None:
        row = self.tables[-1][-1]
        while len(row) in self._open and self._open[len(row)][1] > 0:
            data, left = self._open[len(row)]
            self._open[len(row)] = (data, left - 1)
            row.append(data)


def printed(row: Row, *, highs: bool) -> list[str]:
    """Give a row of a plan as it should be printed."""
    low = [row.insects_low, row.lost_low, row.sum_low]
    insects, lost, total = ("–" if each < 0 else str(each) for each in low)
    if not highs:
        return [str(row.squares), insects, lost, total]
    high = ["–" if each is None else str(each) for each in (row.insects_high, row.lost_high)]
    return [str(row.squares), insects, high[0], lost, high[1], total]


def pages_of(card: StopCard, paper: Paper = Paper.LETTER) -> list[str]:
    pytest.importorskip("typst", reason="needs the report extra")
    made = stop_card_pdf(card, paper=paper)
    return [page.extract_text() for page in PdfReader(io.BytesIO(made)).pages]


def numbers_on_the_front(card: StopCard) -> list[str]:
    """Give the numbers of the front, each as it is set."""
    pytest.importorskip("typst", reason="needs the report extra")
    pieces: list[str] = []
    page = PdfReader(io.BytesIO(stop_card_pdf(card))).pages[0]
    page.extract_text(visitor_text=lambda text, *_: pieces.append(text))
    return re.findall(r"\d+", " ".join(pieces))


@pytest.mark.parametrize("case", WITH_SQUARES, ids=str)
def test_every_limit_on_the_page_is_the_plans(case) -> None:
    card = made_card(*case)
    looks = card.plan.looks
    *limits, _ = Tables(stop_card_page(card)).tables
    assert len(limits) == len(looks)
    for look, table in zip(looks, limits, strict=True):
        whole = [printed(row, highs=card.highs) for row in look.rows]
        first = whole.index(table[0])
        assert table == whole[first : first + len(table)]
        assert len(table) == (ONE_LOOK_ROWS if len(looks) == 1 else EACH_LOOK_ROWS)


@pytest.mark.parametrize("case", WITH_SQUARES, ids=str)
def test_every_limit_is_on_the_paper_too(case) -> None:
    card = made_card(*case)
    told = Counter(numbers_on_the_front(card))
    for look in card.looks:
        wanted = Counter(str(row.squares) for row in look.rows)
        wanted += Counter(str(row.sum_low) for row in look.rows if row.sum_low >= 0)
        wanted += Counter(str(row.lost_low) for row in look.rows if row.lost_low >= 0)
        for limits in ([r.insects_low for r in look.rows], [r.insects_high for r in look.rows]):
            wanted += Counter(
                str(limit) for limit, _ in runs(limits) if limit is not None and limit >= 0
            )
        if card.highs:
            wanted += Counter(str(r.lost_high) for r in look.rows if r.lost_high is not None)
        assert wanted <= told


@pytest.mark.parametrize("case", ALONE, ids=str)
def test_where_insects_decide_alone_their_limits_are_the_large_numbers(case) -> None:
    card = made_card(*case)
    front, _ = pages_of(card)
    page = stop_card_page(card)
    for look, shown in zip(card.plan.looks, card.looks, strict=True):
        row = look.rows[0]
        numbers = [box.number for box in shown.boxes]
        low, high = row.insects_low, row.insects_high
        lowest = [] if low < 0 else [str(low)]
        if high is None:
            assert numbers == [*lowest, str(low + 1) if lowest else card.words.go_on]
        else:
            assert numbers == [*lowest, f"{low + 1}–{high - 1}", str(high)]
        for number in numbers:
            assert f"<strong>{number}</strong>" in page
            assert number in front
    assert "quares" not in front.replace("squaring", "")


@pytest.mark.parametrize("case", CARDS, ids=str)
def test_the_usual_number_of_squares_is_on_the_card(case) -> None:
    card, cost = made_card(*case), card_cost(*case)
    for look, shown in zip(card.plan.looks, card.looks, strict=True):
        assert look.rows[cost.row] in shown.rows


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("case", CARDS, ids=str)
def test_front_and_back_are_one_page_each(case, language: str, paper: Paper) -> None:
    card = made_card(
        *case, field="Windmill 80 behind the gin at the county road", language=language
    )
    front, back = pages_of(card, paper)
    assert card.words.title in front
    assert card.plan.short in front
    assert card.plan.short in back
    assert card.language == language


@pytest.mark.parametrize("case", CARDS, ids=str)
def test_the_card_names_rule_line_and_plan(case) -> None:
    card = made_card(*case)
    front, _ = pages_of(card)
    name, week, stopping, _ = case
    flat = " ".join(front.split())
    assert f"{name}, edition" in flat
    assert f"Week {week} of squaring" in flat
    assert f'Plan {card.plan.short}: write it in the column "plan".' in flat
    assert ("stop, treat" in flat) is (stopping is BOTH)
    assert ("HIGH" in flat) is (stopping is BOTH)
    assert "stop, do not treat" in flat
    assert "not before each quarter has its plants" in flat


def test_blasted_squares_alone_count_where_the_rule_says_so() -> None:
    words = made_card("kansas", 2, BOTH, 0).words
    assert words.at_end == "At 100: treat if 25 or more insects and 10 % or more blasted"
    assert any("Only blasted" in sentence for sentence in words.foot)
    lost = made_card("southern-high-plains", 2, HOLD, 0).words
    assert lost.at_end == "At 100: treat if 25 or more insects and set under 85 %"
    assert "Lost = missing, blasted or flared." in lost.foot


@pytest.mark.parametrize("case", CARDS, ids=str)
def test_the_rates_on_the_back_are_the_exact_ones(case) -> None:
    card, cost = made_card(*case), card_cost(*case)
    plan = cost.shelved.plan
    fields = true_fields(cost)
    assert len(fields) == len(card.back.rows) == 8
    for field, row in zip(fields, card.back.rows, strict=True):
        at = np.array([field.density]), np.array([field.share])
        came = outcomes(plan, cost.row, *at)
        full = columns(course_of(plan, cost.row), (NOMINAL,), *at).full_walk()
        assert field.by_card == pytest.approx(came.says_treat[0])
        assert field.by_full_walk == pytest.approx(full[0])
        assert row[-4:-2] == (of_100_walks(full[0]), of_100_walks(came.says_treat[0]))
        assert row[-2] == f"{came.mean(came.plants)[0]:.0f}"
        assert row[-1] == f"{came.mean(cost.by_look)[0]:.0f}"
        assert field.treat is plan.question.treat(field.density, field.share)
    assert {field.treat for field in fields} == {True, False}
    *_, rates = Tables(stop_card_page(card)).tables
    assert rates == [list(row) for row in card.back.rows]


@pytest.mark.parametrize("case", CARDS, ids=str)
def test_the_back_says_the_worst_and_what_is_assumed(case) -> None:
    card, cost = made_card(*case), card_cost(*case)
    clear = max(row.worst_clear for row in cost.shelved.figures)
    near = max(row.worst_near for row in cost.shelved.figures)
    text = " ".join(" ".join(part.sentences) for part in card.back.told)
    assert f"at most {max(0, clear):.1f} more walks in 100" in text
    assert f"at most {max(0, near):.1f} more." in text
    assert "four ways" in text
    assert "assumptions" in text
    assert "The call on the counts still decides between hold and look sooner." in text


@given(st.sampled_from(WITH_SQUARES), st.integers(0, 60), st.integers(0, 60), st.data())
def test_within_its_rows_the_card_says_what_the_plan_says(case, insects, lost, data) -> None:
    card = made_card(*case)
    for look, shown in zip(card.plan.looks, card.looks, strict=True):
        first, last = shown.rows[0].squares, shown.rows[-1].squares
        squares = data.draw(st.integers(first, last))
        by_card = Look(look.plants, shown.rows).side(insects, lost, squares)
        assert by_card is look.side(insects, lost, squares)


def test_a_page_loads_nothing_and_runs_nothing() -> None:
    page = stop_card_page(made_card("kansas", 2, BOTH, 0, field="<b>Gin & Co</b>"))
    assert "default-src 'none'" in page
    assert "<script" not in page
    assert "&lt;b&gt;Gin &amp; Co&lt;/b&gt;" in page
    assert page.count("<style") == 1


def test_the_same_card_gives_the_same_file() -> None:
    pytest.importorskip("typst", reason="needs the report extra")
    assert stop_card_pdf(made_card(*CARDS[0])) == stop_card_pdf(made_card(*CARDS[0]))


@given(st.lists(st.integers(-1, 3) | st.none(), max_size=12))
def test_runs_give_back_what_went_in(limits) -> None:
    told = runs(limits)
    assert [value for value, count in told for _ in range(count)] == limits
    assert all(a[0] != b[0] for a, b in zip(told, told[1:], strict=False))


@given(st.lists(st.floats(0.001, 1), min_size=2, max_size=4))
def test_walks_out_of_100_sum_to_100_and_lie_next_to_their_shares(weights) -> None:
    shares = [weight / sum(weights) for weight in weights]
    walks = of_100(shares)
    assert sum(walks) == 100
    assert all(abs(n - 100 * share) < 1 + 1e-9 for n, share in zip(walks, shares, strict=True))


@pytest.mark.parametrize(
    ("chance", "said"),
    [(0.0, "0"), (0.0001, "0"), (0.034, "3.4"), (0.5, "50"), (0.936, "93.6"), (0.99996, "100")],
)
def test_chances_near_0_and_100_keep_a_decimal(chance: float, said: str) -> None:
    assert of_100_walks(chance) == said


@pytest.mark.parametrize("case", WITH_SQUARES)
def test_the_card_says_what_is_added_up_and_speaks_in_feet(case) -> None:
    card = made_card(*case)
    assert any(told.startswith("Together = insects and ") for told in card.words.foot)
    assert card.back.heads[2] == "right answer"
    assert {row[2] for row in card.back.rows} == {"treat", "do not treat"}
    told = " ".join(sentence for part in card.back.told for sentence in part.sentences)
    assert " 246 feet a minute" in told  # 75 metres
    assert "metres" not in told
    assert "(k " not in told


def test_each_table_of_the_page_moves_in_its_own_box_on_a_telephone() -> None:
    shown = stop_card_page(made_card("southern-high-plains", 2, HOLD, 0))
    assert shown.count("<table") == shown.count('<div class="box" tabindex="0"><table') == 2
    assert "@media screen and (max-width:48rem)" in shown
