"""What leaves the shop as a page or a picture; only this part of woodref draws."""

from __future__ import annotations

from typing import Any

__all__ = ["report_html"]


def __getattr__(name: str) -> Any:
    """The public function of the page, imported when it is asked for."""
    if name == "report_html":
        from woodref.report.html import report_html

        return report_html
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
