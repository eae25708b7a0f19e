"""The office: the web application that keeps the journal, shows the fields and makes the calls.

Its seams: `access` (a row that a person may not see does not exist), `queries` (reads),
`services` (every change), `pages` (what a template shows), `translate` (the only place
where rows meet core objects), `views`, and `sync` for the phones.
"""
