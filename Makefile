# The same commands as in the README, shorter to type.
.PHONY: check bench faults pictures terminals

check:
	python -m tests

bench:
	python -m benchmarks

faults:
	python -m tests.faults

pictures:
	python -m pictures

terminals:
	python -m pictures.terminals
