# The same commands as in the README, shorter to type.
.PHONY: check bench pictures

check:
	python -m tests

bench:
	python -m benchmarks

pictures:
	python -m pictures
