"""What is kept of the models reads and refuses as the models do, and goes stale with them."""

import pickle
import pickletools
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from pydantic import BaseModel, ValidationError

from bindoff.source.amount import Amount
from bindoff.source.keptmodels import SOURCES, reader, schema
from bindoff.source.library import twin
from bindoff.source.model import Model
from bindoff.source.pattern import Pattern
from bindoff.source.yamltree import NOWHERE

ROOT = Path(__file__).parents[2]
GENERATOR = ROOT / "generator"
PACKAGE = GENERATOR / "bindoff"


def test_all_that_it_is_made_of_lies_where_the_shelf_looks() -> None:
    names = (str(argument) for _, argument, _ in pickletools.genops(schema()))
    files = {f"{name.partition(':')[0].replace('.', '/')}.py" for name in names}
    modules = {GENERATOR / file for file in files if (GENERATOR / file).exists()}
    looked_at = {
        module
        for source in SOURCES
        for module in ([PACKAGE / source] if "." in source else (PACKAGE / source).glob("*.py"))
    }
    assert len(modules) > 30
    assert modules <= looked_at


def test_there_is_still_one_place_that_is_nowhere() -> None:
    defaults = list(_models(pickle.loads(schema())))
    assert defaults
    assert all(each.place is NOWHERE for each in defaults)


def _models(part: Any) -> Iterator[Model]:
    if isinstance(part, Model):
        yield part
    elif isinstance(part, dict | list):
        for each in part.values() if isinstance(part, dict) else part:
            yield from _models(each)


@pytest.mark.parametrize("name", sorted(path.name for path in (ROOT / "patterns").iterdir()))
def test_it_reads_a_pattern_as_the_models_do(name: str) -> None:
    text = (ROOT / "patterns" / name / "pattern.yaml").read_text("utf-8")
    data = yaml.safe_load(text)
    data["version"], data["date"] = str(data["version"]), str(data["date"])
    assert plain(reader().validate_python(data)) == plain(twin(Pattern).model_validate(data))


def plain(value: Any) -> Any:
    """What a model of ours or of the library holds, with its name and the keys that are written."""
    match value:
        case Model() | BaseModel():
            holds = {key: plain(each) for key, each in vars(value).items()}
            others = value.__pydantic_extra__
            return type(value).__name__, holds, others, sorted(value.model_fields_set)
        case Amount():
            return type(value).__name__, value.written
        case dict():
            return {key: plain(each) for key, each in value.items()}
        case tuple():
            return tuple(map(plain, value))
        case _:
            return value


def test_it_finds_the_faults_that_the_models_find() -> None:
    data = {"title": 3, "sizes": {"S": {"needles": 2}}, "pieces": {"hat": {"steps": [{"sew": 1}]}}}
    with pytest.raises(ValidationError) as kept:
        reader().validate_python(data)
    with pytest.raises(ValidationError) as made:
        twin(Pattern).model_validate(data)
    assert len(made.value.errors()) > 5
    assert kept.value.errors() == made.value.errors()


def test_a_run_that_finds_it_loads_no_models_of_the_library() -> None:
    script = (
        "import sys\n"
        "from bindoff.source.keptmodels import reader\n"
        "from bindoff.kept import keep_all\n"
        "reader(), keep_all()\n"
        "print('pydantic' in sys.modules)\n"
    )
    command = [sys.executable, "-c", script]
    environment = {"PYTHONPATH": str(GENERATOR)}
    runs = [subprocess.run(command, env=environment, capture_output=True) for _ in range(2)]
    assert [run.stderr for run in runs] == [b"", b""]
    assert runs[1].stdout == b"False\n"
