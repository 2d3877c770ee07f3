"""Pictures of the wall in real terminals, and what of it is read there: `make terminals`."""
