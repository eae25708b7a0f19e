"""Views, a file for each noun: may I, is it well-formed, do it, show it."""
