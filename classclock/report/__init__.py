"""Results, bests and attendance as pages: text, CSV and HTML."""
