"""The colours of a drawing by what they mean: by day, by night, on paper."""

from __future__ import annotations

from collections.abc import Mapping

LIGHT: Mapping[str, str] = {
    "paper": "#F7F9F6",
    "ink": "#14201C",
    "second": "#4C5A54",
    "leaf": "#125C6B",
    "hold": "#125C6B",
    "near": "#7A4E00",
    "past": "#8F1538",
    "plant": "#2C6B3F",
    "rule": "#7B8881",
    "frame": "#7B8881",
    "hatch": "#85928B",
    "tint-1": "#EDF1EC",
    "tint-2": "#DCE3DD",
    "tint-3": "#CBD5CE",
    "tint-4": "#B5C3BA",
}
"""On a bright screen; every mark stands out from paper by 3 to 1 and every word by 4.5."""

DARK: Mapping[str, str] = {
    "paper": "#0E1513",
    "ink": "#EAF0EC",
    "second": "#A8B6AF",
    "leaf": "#74C6D4",
    "hold": "#74C6D4",
    "near": "#EFBF63",
    "past": "#FF93A8",
    "plant": "#8CCB9B",
    "rule": "#5F6F67",
    "frame": "#5F6F67",
    "hatch": "#56655E",
    "tint-1": "#161F1C",
    "tint-2": "#233029",
    "tint-3": "#31413A",
    "tint-4": "#43564C",
}
"""On a dark screen."""

PRINT: Mapping[str, str] = {
    "paper": "#FFFFFF",
    "ink": "#000000",
    "second": "#333333",
    "leaf": "#7A7A7A",
    "hold": "#000000",
    "near": "#000000",
    "past": "#000000",
    "plant": "#333333",
    "rule": "#555555",
    "frame": "#000000",
    "hatch": "#777777",
    "tint-1": "#F4F4F4",
    "tint-2": "#E4E4E4",
    "tint-3": "#D3D3D3",
    "tint-4": "#BEBEBE",
}
"""On paper, safe in a grey photocopy."""
