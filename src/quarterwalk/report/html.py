"""What every web page of a report shares: escaping, sections, styles, font and policy."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable
from functools import cache
from hashlib import sha256
from html import escape
from importlib.resources import files
from string import Template

from quarterwalk.picture import Theme, style

_FONT = "AtkinsonHyperlegibleNext-wght.woff2"


def template(name: str) -> Template:
    """Give a template of this package.

    Parameters
    ----------
    name : str
        Its file name.

    Returns
    -------
    Template
        Its gaps are to be filled with what is escaped already.
    """
    return Template(file_text(name))


def styles(*names: str) -> str:
    """Give everything that dresses a page: font, drawings, and the named sheets.

    Parameters
    ----------
    *names : str
        File names of style sheets of this package.

    Returns
    -------
    str
        CSS that refers to nothing outside.
    """
    return font_face() + style(Theme.SCREEN) + "".join(file_text(name) for name in names)


def policy(css: str) -> str:
    """Say what a page may load: its own style, its own font, and nothing else.

    Parameters
    ----------
    css : str
        The text of the page's one style element.

    Returns
    -------
    str
        A content security policy.
    """
    known = b64encode(sha256(css.encode()).digest()).decode()
    return (
        f"default-src 'none'; style-src 'sha256-{known}'; font-src data:;"
        " base-uri 'none'; form-action 'none'"
    )


def section(title: str, told: Iterable[str], *, cls: str, tag: str = "p") -> str:
    """Set sentences under a heading.

    Parameters
    ----------
    title : str
        The heading, as plain text.
    told : iterable of str
        The sentences, as plain text.
    cls : str
        Name for the style sheet.
    tag : str
        ``p`` for paragraphs, ``li`` for a list.

    Returns
    -------
    str
        HTML; nothing where there is no sentence.
    """
    lines = "\n".join(f"<{tag}>{escape(text)}</{tag}>" for text in told)
    if not lines:
        return ""
    inside = f"<ul>\n{lines}\n</ul>" if tag == "li" else lines
    return f'<section class="{cls}">\n<h2>{escape(title)}</h2>\n{inside}\n</section>'


@cache
def file_text(name: str) -> str:
    """Read a file of this package.

    Parameters
    ----------
    name : str
        Its file name.

    Returns
    -------
    str
    """
    return (files("quarterwalk.report") / name).read_text(encoding="utf-8")


@cache
def font_face() -> str:
    """Give the rule that brings the font with a page.

    Returns
    -------
    str
        CSS, the font inside it.
    """
    font = (files("quarterwalk.report") / "fonts" / _FONT).read_bytes()
    return (
        '@font-face{font-family:"Atkinson Hyperlegible Next";font-weight:200 800;'
        f"src:url(data:font/woff2;base64,{b64encode(font).decode()}) format('woff2')}}"
    )
