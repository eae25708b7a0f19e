"""Every change to the office's rows, a file a noun; what else is needed is a page's own."""
