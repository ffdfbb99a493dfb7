PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
READY := $(VENV)/.ready

SPARK := .venv-spark
RELEASE := .venv-release
INSTALLED := .venv-installed
MUTATION := .venv-mutation
SITE := .venv-site

.PHONY: demo test data check docs notebooks fuzz bench lint site clean spark-test spark-run release sbom audit archive versions mutation
.DEFAULT_GOAL := demo

$(READY): pyproject.toml constraints.txt
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --upgrade pip
	$(BIN)/python -m pip install --quiet -c constraints.txt -e '.[dev]'
	touch $(READY)

demo: $(READY)  ## set up and run the main job on a demo piece
	$(BIN)/woodref estimate datasets/demo/hall-bench.toml

test: $(READY)  ## set up and run the tests
	$(BIN)/python -m pytest -n auto --dist worksteal

$(SPARK)/.ready: pyproject.toml constraints.txt
	$(PYTHON) -m venv $(SPARK)
	$(SPARK)/bin/python -m pip install --quiet -c constraints.txt -e '.[spark]' pytest hypothesis polars
	touch $(SPARK)/.ready

spark-test:  ## set up and run the tests of the cluster engine, where there is a Java runtime
	@if command -v java >/dev/null; then $(MAKE) --no-print-directory spark-run; \
	else echo "skipped: no Java runtime is found, and Spark needs one"; fi

spark-run: $(SPARK)/.ready
	$(SPARK)/bin/python -m pytest tests/spark $(SPARK_TESTS)

$(RELEASE)/.ready: pyproject.toml constraints.txt
	$(PYTHON) -m venv $(RELEASE)
	$(RELEASE)/bin/python -m pip install --quiet -c constraints.txt -e '.[release]'
	touch $(RELEASE)/.ready

release: $(RELEASE)/.ready  ## build what is committed twice, compare the bytes, try the wheel; nothing is uploaded
	rm -rf dist
	$(RELEASE)/bin/python -m release.twice --out dist
	$(RELEASE)/bin/python -m twine check --strict dist/*
	$(RELEASE)/bin/python -m release.installed dist/*.whl --environment $(INSTALLED)

sbom: release  ## a software bill of materials of the wheel and what it depends on, CycloneDX
	$(RELEASE)/bin/cyclonedx-py environment --pyproject pyproject.toml --mc-type library \
	  --output-reproducible --of JSON -o dist/woodref.cdx.json $(INSTALLED)/bin/python

audit: $(RELEASE)/.ready  ## look the pinned versions up among known vulnerabilities, over the network; then the code
	$(RELEASE)/bin/bandit --quiet --recursive -c pyproject.toml woodref pipeline
	@$(RELEASE)/bin/pip-audit --strict --no-deps --disable-pip -r constraints.txt -s osv || { \
	  echo "not clean, or not asked: the list of known vulnerabilities must be in reach" >&2; exit 1; }

versions: $(RELEASE)/.ready  ## run the tests with the lowest versions allowed and the newest, on each Python there is
	$(RELEASE)/bin/python -m release.versions -- $(VERSIONS_TESTS)

data: $(READY)  ## build the reference dataset from datasets/sources, and the pages that quote it
	$(BIN)/python -m pipeline build
	$(BIN)/python docs/refresh.py

archive: $(READY)  ## the dataset as one file to keep and to cite, in dist
	$(BIN)/python -m pipeline archive --out dist

check: $(READY)  ## rebuild the dataset aside and compare it byte for byte
	$(BIN)/python -m pipeline check

docs: $(READY)  ## run the examples of the pages and renew their output
	$(BIN)/python docs/refresh.py

notebooks: $(READY)  ## run the notebooks and renew the outputs stored in them
	$(BIN)/python notebooks/refresh.py

FUZZ_INPUTS ?= 50000
FUZZ_SEED ?= 1

fuzz: $(READY)  ## try hostile input for long: make fuzz FUZZ_INPUTS=1000 FUZZ_SEED=2
	$(BIN)/python tests/fuzz/long_run.py --inputs $(FUZZ_INPUTS) --seed $(FUZZ_SEED)

bench: $(READY)  ## time what must be fast
	for file in benchmarks/*.py; do $(BIN)/python $$file || exit 1; done

$(MUTATION)/.ready: pyproject.toml constraints.txt
	$(PYTHON) -m venv $(MUTATION)
	$(MUTATION)/bin/python -m pip install --quiet -c constraints.txt -e '.[mutation]'
	touch $(MUTATION)/.ready

mutation: $(MUTATION)/.ready  ## change the code of one room in every place, as ROOM=board, and count what its tests miss
	nice -n 19 $(MUTATION)/bin/python tests/mutation/run.py $(ROOM)

mutation-report: $(MUTATION)/.ready  ## write docs/mutation.md from the last runs
	$(MUTATION)/bin/python tests/mutation/report.py

$(SITE)/.ready: pyproject.toml constraints.txt
	$(PYTHON) -m venv $(SITE)
	$(SITE)/bin/python -m pip install --quiet -c constraints.txt -e '.[site]'
	touch $(SITE)/.ready

site: $(READY) $(SITE)/.ready  ## make the documentation site in build/site, and check it
	$(BIN)/python -m docs.site build/site-pages
	rm -rf build/site
	$(SITE)/bin/python -m sphinx -W --keep-going -q -j auto -d build/site-doctrees -c docs/site build/site-pages build/site
	$(BIN)/python -m docs.site.check build/site
	WOODREF_SITE=$(CURDIR)/build/site $(BIN)/python -m pytest tests/site/test_built.py

lint: $(READY)  ## style and types
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy

clean:
	rm -rf $(VENV) $(SPARK) $(RELEASE) $(INSTALLED) .venv-versions $(MUTATION) $(SITE) dist build
