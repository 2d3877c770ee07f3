# The same commands as in the README, shorter to type.
.PHONY: check bench docs faults pictures readable terminals

check:
	python -m tests

bench:
	python -m benchmarks

docs:
	python -m docs

faults:
	python -m tests.faults

pictures:
	python -m pictures

readable:
	python -m readable

terminals:
	python -m pictures.terminals
