# make demo   sets up its own environment, reviews the example, draws it, prints its sheets
# make test   sets up everything that the tests need and runs them all

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
EXAMPLE := examples/orchard-hauler/build.toml
PIP := $(BIN)/python -m pip --disable-pip-version-check -q

.PHONY: demo test check-code check-rooms chromium bench pictures lock clean

demo: $(VENV)/run.done
	@mkdir -p out
	@$(BIN)/beltwright check $(EXAMPLE) || test $$? -eq 1  # 1 says that something stops it
	@$(BIN)/beltwright draw $(EXAMPLE) -o out/orchard-hauler.svg
	@$(BIN)/beltwright sheets $(EXAMPLE) -o out
	@$(BIN)/beltwright chart $(EXAMPLE) -o out
	@echo
	@$(BIN)/beltwright choose $(EXAMPLE) --top 3
	@echo
	@echo "Drawn: out/orchard-hauler.svg. Sheets and charts: in out/. Look at them first."
	@echo "Next:  $(BIN)/beltwright new mine.toml    writes a starter for your own machine"
	@echo "       $(BIN)/beltwright open examples    shows the examples in your browser"

test: $(VENV)/work.done chromium check-code check-rooms
	$(BIN)/python -m pytest -n 2

check-code: $(VENV)/work.done
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy

check-rooms: $(VENV)/work.done
	$(BIN)/lint-imports

chromium:
	@command -v chromium >/dev/null || { \
	  echo "The browser tests need Chromium; installing Debian's package."; \
	  apt-get update -qq && apt-get install -y -qq chromium >/dev/null; }

bench: $(VENV)/work.done
	@for file in benchmarks/*.py; do echo; echo "== $$file"; $(BIN)/python $$file; done

pictures: $(VENV)/work.done
	$(BIN)/python tools/draw_pictures.py

lock: $(VENV)/work.done
	$(BIN)/pip-compile -q --extra set-up --allow-unsafe --generate-hashes --no-emit-index-url --no-emit-find-links --no-emit-options \
	  --no-header --strip-extras -o requirements/run.lock pyproject.toml
	$(BIN)/pip-compile -q --extra set-up --extra work --allow-unsafe --generate-hashes --no-emit-index-url --no-header \
	  --no-emit-find-links --no-emit-options --strip-extras -c requirements/run.lock \
	  -o requirements/work.lock pyproject.toml

$(VENV)/run.done: requirements/run.lock pyproject.toml
	@echo "Setting up in $(VENV); the first time takes a minute."
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	@$(PIP) install --require-hashes -r requirements/run.lock
	@$(PIP) install --no-deps --no-build-isolation -e .
	@touch $@

$(VENV)/work.done: requirements/work.lock pyproject.toml
	@echo "Setting up the work environment in $(VENV); the first time takes some minutes."
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	@$(PIP) install --require-hashes -r requirements/work.lock
	@$(PIP) install --no-deps --no-build-isolation -e .
	@touch $@ $(VENV)/run.done

clean:
	rm -rf $(VENV) out
