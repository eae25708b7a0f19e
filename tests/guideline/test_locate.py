"""Every key of a TOML text is found on the line where it stands."""

from __future__ import annotations

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.guideline.locate import lines_of, nearest_line

TEXT = '''# line 1
title = "a # not a comment"   # but this is

[a]
"quoted.key" = 1
b.c = [ 1, 2,
  3 ]  # line 7
long = """
two ] lines
"""
after = { x = 1, y = [ { z = "}" } ] }

[[rows]]
n = 1
[[rows]]
n = 2
[rows.inner]
deep = \'\'\'
[not.a.table]
\'\'\'
last = 2019-07-05T10:00:00
'''


def test_keys_stand_on_their_lines():
    lines = lines_of(TEXT)
    assert lines[("title",)] == 2
    assert lines[("a",)] == 4
    assert lines[("a", "quoted.key")] == 5
    assert lines[("a", "b", "c")] == 6
    assert lines[("a", "b", "c", 2)] == 7
    assert lines[("a", "after")] == 11
    assert lines[("a", "after", "y", 0, "z")] == 11
    assert lines[("rows", 0)] == 13
    assert lines[("rows", 1)] == 15
    assert lines[("rows", 1, "n")] == 16
    assert lines[("rows", 1, "inner", "last")] == 21


def test_windows_line_ends_count_once():
    assert lines_of(TEXT.replace("\n", "\r\n")) == lines_of(TEXT)


def test_what_is_not_there_is_placed_at_the_table_that_lacks_it():
    assert nearest_line(lines_of(TEXT), ("rows", 1, "missing")) == 15
    assert nearest_line(lines_of(TEXT), ("nowhere",)) == 1


def paths(value, path=()):
    """Every path that leads to a value."""
    if path:
        yield path
    if isinstance(value, dict | list):
        items = value.items() if isinstance(value, dict) else enumerate(value)
        for key, item in items:
            yield from paths(item, (*path, key))


def test_every_path_of_the_text_has_a_line():
    assert set(paths(tomllib.loads(TEXT))) == set(lines_of(TEXT))


KEYS = st.sampled_from(["a", "b", '"x.y"', "'z z'", "a.b", '"q\\"" . c', "d"])
VALUES = st.recursive(
    st.sampled_from(["1", "-0.5", "true", '"s,]}#"', "'''l\n]'''", '"""m\n"q" """', "2020-01-01"]),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda items: "[\n" + ",# c ]\n".join(items) + "\n]"),
        st.lists(inner, max_size=2).map(
            lambda items: "{" + ", ".join(f"k{n} = {x}" for n, x in enumerate(items)) + "}"
        ),
    ),
    max_leaves=6,
)


@given(
    st.lists(
        st.one_of(
            KEYS.map("[{}]".format),
            KEYS.map("[[{}]]".format),
            st.tuples(KEYS, VALUES).map(" = ".join),
        ),
        max_size=8,
    )
)
def test_whatever_toml_is_read_every_path_of_it_has_a_line(parts):
    text = "\n".join(parts)
    try:
        content = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    assert set(paths(content)) == set(lines_of(text))
