"""What templates show: frozen records, their sentences ready."""
