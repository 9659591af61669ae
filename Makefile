# Two commands matter: `make demo` and `make test`. Each sets up all it needs.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
OUTPUT ?= demo-output
export UV_PYTHON_DOWNLOADS = never
export UV_SYSTEM_CERTS = true

# uv is quick; where it cannot work (an old mirror, a proxy of its own kind), pip installs the same locked files.
define install_locked
$(BIN)/uv pip install --quiet --python $(BIN)/python --require-hashes -r $(1) || $(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r $(1)
$(BIN)/uv pip install --quiet --python $(BIN)/python --no-deps --no-build-isolation -e . || $(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
endef

.PHONY: demo install test test-fast check bench prove lock clean

demo: install
	$(BIN)/asplayed demo $(OUTPUT)

install: $(VENV)/.installed

test: $(VENV)/.installed-test check
	$(BIN)/python -m pytest -n 2

test-fast: $(VENV)/.installed-test
	$(BIN)/python -m pytest -n 2 -m "not slow"

check: $(VENV)/.installed-test
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: $(VENV)/.installed-test
	$(BIN)/python -m benchmarks

prove: $(VENV)/.installed-test
	$(BIN)/python -m benchmarks.prove

$(VENV)/bin/uv:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "asplayed needs Python 3.11 or newer; set PYTHON=/path/to/python3.11"; exit 1; }
	@$(PYTHON) -m venv $(VENV) || { echo "making a virtual environment failed: on Debian, install python3-venv (apt-get install python3-venv)"; exit 1; }
	$(BIN)/python -m pip install --quiet --disable-pip-version-check uv

$(VENV)/.installed: requirements.lock pyproject.toml | $(VENV)/bin/uv
	$(call install_locked,requirements.lock)
	@touch $@

$(VENV)/.installed-test: requirements-test.lock pyproject.toml | $(VENV)/bin/uv
	$(call install_locked,requirements-test.lock)
	@touch $@ $(VENV)/.installed

# Run after changing the dependencies in pyproject.toml.
lock: | $(VENV)/bin/uv
	$(BIN)/uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-annotate --no-header --no-emit-index-url --group build pyproject.toml -o requirements.lock
	$(BIN)/uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-annotate --no-header --no-emit-index-url -c requirements.lock --group build --group test --group docs pyproject.toml -o requirements-test.lock

clean:
	rm -rf $(VENV) $(OUTPUT) build dist
