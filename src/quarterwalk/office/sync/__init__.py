"""What phones speak with: pairing, the day, cards, entries, calls; by token, never by cookie."""
