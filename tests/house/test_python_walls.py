import shutil
import subprocess
import sys

import pytest

from tests.house.tree import ROOT

LINT = "import importlinter.cli as cli; cli.lint_imports_command()"
STOREYS = ["management", "demo", "services", "selectors", "photo_store", "models"]
STOREYS += ["sheets", "domain", "services/darkroom"]

WALK = """
import importlib, pkgutil, sys
sys.path.insert(0, sys.argv[1])
REFUSED = {"django", "rest_framework"}

class Refuse:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in REFUSED:
            raise ImportError("refused by the test: " + name)

sys.meta_path.insert(0, Refuse())
for name in sys.argv[2:]:
    package = importlib.import_module(name)
    for module in pkgutil.walk_packages(package.__path__, name + "."):
        importlib.import_module(module.name)
"""


def walk(*packages, flags=()):
    argv = [sys.executable, *flags, "-c", WALK, str(ROOT), *packages]
    return subprocess.run(argv, capture_output=True, text=True)


def test_the_core_is_imported_where_django_is_refused():
    done = walk("gardens.domain", "gardens.sheets")
    assert done.returncode == 0, done.stderr


def test_the_domain_and_the_bootstrap_need_no_installed_package():
    done = walk("gardens.domain", "api.bootstrap", flags=("-I", "-S"))
    assert done.returncode == 0, done.stderr


def test_a_module_that_imports_django_is_refused():
    done = walk("gardens.models")
    assert "refused by the test: django" in done.stderr


@pytest.fixture
def small_house(tmp_path):
    for folder in ["api", "api/bootstrap", "gardens", *(f"gardens/{s}" for s in STOREYS)]:
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "__init__.py").touch()
    (tmp_path / "gardens/services/darkroom/drawing.py").touch()
    shutil.copy(ROOT / ".importlinter", tmp_path)
    return tmp_path


def lint(house):
    argv = [sys.executable, "-c", LINT, "--no-cache"]
    return subprocess.run(argv, cwd=house, capture_output=True, text=True).returncode


def test_a_house_without_imports_keeps_the_contracts(small_house):
    assert lint(small_house) == 0


@pytest.mark.parametrize(
    ("module", "line"),
    [
        ("gardens/domain", "import django"),
        ("gardens/sheets", "from django.conf import settings"),
        ("gardens/models", "import gardens.services"),
        ("gardens/selectors", "import api"),
        ("gardens/services", "import rest_framework"),
        ("api", "import pillow_heif"),
        ("api/bootstrap", "def later():\n    import django"),
    ],
)
def test_an_import_that_points_up_breaks_a_contract(small_house, module, line):
    (small_house / module / "wrong.py").write_text(f"{line}\n")
    assert lint(small_house) == 1
