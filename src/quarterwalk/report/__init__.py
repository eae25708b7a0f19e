"""What is printed: the grower's report and the blank walk sheet.

`make_report` words everything once. `page`, `report_pdf` and `short_text` show it, so
that the three never disagree; `day_page` lists the reports of a day.
"""

from quarterwalk.report.day import Linked, day_page, urgency
from quarterwalk.report.make import make_report
from quarterwalk.report.page import page
from quarterwalk.report.pdf import Paper, report_pdf, reports_pdf
from quarterwalk.report.report import Footing, Report
from quarterwalk.report.sheet import SheetContent, sheet_pdf, walk_sheet
from quarterwalk.report.sheet_page import sheet_page
from quarterwalk.report.text import short_text

__all__ = [
    "Footing",
    "Linked",
    "Paper",
    "Report",
    "SheetContent",
    "day_page",
    "make_report",
    "page",
    "report_pdf",
    "reports_pdf",
    "sheet_page",
    "sheet_pdf",
    "short_text",
    "urgency",
    "walk_sheet",
]
