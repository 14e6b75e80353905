"""Every relation of parts/relations says what it does: equation, units, example, source; and the equation is the function.

A relation is a public function of plain numbers in a module of relations. Its equation is plain text that a machinist
can follow; here it is evaluated as it is printed, with random inputs, against the function itself.
"""

import ast
import inspect
import math
import pkgutil
import random
import re
from importlib import import_module

import pytest

import parts.relations
import parts.relations.contour
from parts.book import docstring_record

SOLVERS = {"contour"}  # of curves: their figure is held against scipy and the elastica
UNITS = {
    "mm", "mm^2", "mm^3", "mm^4", "N", "MPa", "N m", "degC", "deg", "rad", "1", "1/K", "N/mm", "g", "g/cm^3", "d", "HV",
    "um", "um/kN", "K", "deg, mm",
}  # fmt: skip
FUNCTIONS = {
    n: getattr(math, n)
    for n in ("sqrt", "cbrt", "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "log", "ceil", "floor")
}
NAMES = FUNCTIONS | {"exp": math.exp, "min": min, "max": max, "abs": abs, "pi": math.pi}
NODES = (
    ast.Expression, ast.BinOp, ast.UnaryOp, ast.Call, ast.Name, ast.Load, ast.Constant, ast.Compare, ast.Lt, ast.Gt,
    ast.LtE, ast.GtE, ast.IfExp,
    ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow, ast.USub,
)  # fmt: skip
RANGES = {  # unit -> inputs to try
    "mm": (0.2, 90), "mm^2": (5, 900), "mm^3": (1e3, 1e5), "mm^4": (0.5, 90), "N": (100, 3e4), "MPa": (1, 1.2e5), "N m": (1, 60),
    "degC": (-10, 600), "deg": (5, 85), "rad": (0.02, 0.6), "1": (0.02, 12), "1/K": (5e-6, 3e-5),
}  # fmt: skip
SIGNED = {
    "x",
    "y",
    "other_x",
    "other_y",
    "side_x",
    "side_y",
    "interference",
    "cold",
    "hot",
    "cooler",
    "turned",
    "first",
}
IN_WORDS = {  # the equation is that of a curve, or of a search, not of a number
    "mandrel_profile", "round_diameter", "disc_diameter", "tip_angle", "pin_position", "opened_stress",
    "round_opened_stress", "sections_tailstock", "gap_for_contour", "gap_for_pin", "gap_for_round",
    "multiple", "ring_stress",
}  # fmt: skip


def relations():
    """Name and function of every relation."""
    for module in pkgutil.iter_modules(parts.relations.__path__, "parts.relations."):
        if module.ispkg or module.name.rpartition(".")[2] in SOLVERS:
            continue
        loaded = import_module(module.name)
        for name, function in inspect.getmembers(loaded, inspect.isfunction):
            if function.__module__ == module.name and not name.startswith("_") and of_numbers(function):
                yield f"{module.name.removeprefix('parts.relations.')}.{name}", function
    yield "contour.mandrel_profile", parts.relations.contour.mandrel_profile


def of_numbers(function):
    signature = inspect.signature(function)
    return {p.annotation for p in signature.parameters.values()} == {signature.return_annotation} == {"float"}


RELATIONS = dict(relations())
every = pytest.mark.parametrize("name", RELATIONS)


def section(function, title):
    """Lines of a section of the docstring, without its title."""
    text = inspect.getdoc(function)
    found = re.search(rf"^{title}\n-{{{len(title)}}}\n(.*?)(?=^\w[\w ]*\n-{{3,}}\n|\Z)", text, re.DOTALL | re.MULTILINE)
    assert found, f"no section {title}"
    return found[1].rstrip()


def documented(text):
    """Name, type and unit of each entry of a Parameters or Returns section."""
    entries = re.split(r"^(?=\S)", text, flags=re.MULTILINE)
    for entry in filter(None, entries):
        head, _, body = entry.partition("\n")
        name, _, kind = head.partition(" : ")
        units = re.findall(r"\[([^\[\]]+)\]", body)
        yield name.strip(), kind.strip(), units


def test_there_are_relations_to_read():
    assert len(RELATIONS) > 120
    assert len({name.rpartition(".")[0] for name in RELATIONS}) >= 12


@every
def test_it_begins_with_one_sentence(name):
    first = inspect.getdoc(RELATIONS[name]).splitlines()[0]
    assert re.fullmatch(r"[A-Z].{8,120}\.", first), first


@every
def test_its_parameters_are_those_of_the_signature_with_units(name):
    function = RELATIONS[name]
    found = list(documented(section(function, "Parameters")))
    signature = inspect.signature(function).parameters
    stars = [("**" if p.kind is p.VAR_KEYWORD else "") + n for n, p in signature.items()]
    assert [n for n, _, _ in found] == stars
    for parameter, kind, units in found:
        assert kind == "float", parameter
        assert len(units) == 1, f"{parameter}: units {units}"
        assert units[0] in UNITS, f"{parameter}: {units[0]}"


@every
def test_its_result_has_a_name_and_a_unit(name):
    function = RELATIONS[name]
    ((result, kind, units),) = documented(section(function, "Returns"))
    equation, unit, _ = docstring_record(function)
    assert equation.partition(" = ")[0] == result
    assert units[-1] == unit
    assert unit in UNITS
    assert kind == "float" or function.__name__ in IN_WORDS


@every
def test_it_has_an_example_and_a_source(name):
    function = RELATIONS[name]
    assert ">>> " in section(function, "Examples")
    assert f"{function.__name__}(" in section(function, "Examples")
    references = section(function, "References")
    assert re.match(r"\.\. \[1\] \S.{5,}", references), references
    assert "http" not in references
    _, _, source = docstring_record(function)
    assert " ".join(references.removeprefix(".. [1] ").split()) == source


def plain(equation):
    """The right side of an equation as something that can be evaluated."""
    right = equation.partition(" = ")[2]
    tree = ast.parse(right.replace("^", "**"), mode="eval")
    for node in ast.walk(tree):
        assert isinstance(node, NODES), f"{right}: holds {type(node).__name__}"
    return right, compile(tree, right, "eval"), {n.id for n in ast.walk(tree) if isinstance(n, ast.Name)}


def tried(function, inputs):
    try:
        value = function(**inputs)
    except (ValueError, ArithmeticError):
        return None
    return value if isinstance(value, int | float) and math.isfinite(value) else None


NUMBERS = [
    name
    for name, function in RELATIONS.items()
    if function.__name__ not in IN_WORDS
    and not any(p.kind is p.VAR_KEYWORD for p in inspect.signature(function).parameters.values())
]


@pytest.mark.parametrize("name", NUMBERS)
def test_its_printed_equation_is_the_function(name):
    function = RELATIONS[name]
    right, code, names = plain(docstring_record(function)[0])
    arguments = list(inspect.signature(function).parameters)
    assert names - set(NAMES) == set(arguments), "the equation uses other names than the function takes"
    units = {n: units[0] for n, _, units in documented(section(function, "Parameters"))}
    dice, agreed = random.Random(name), 0  # noqa: S311

    def printed(**inputs):
        return eval(code, {"__builtins__": {}}, NAMES | inputs)  # noqa: S307 - the nodes were looked at

    for _ in range(600):
        inputs = {n: thrown(dice, n, units[n]) for n in arguments}
        by_print, by_function = tried(printed, inputs), tried(function, inputs)
        if by_function is None:  # out of its domain
            continue
        assert by_print is not None, f"{right} can't be worked out at {inputs}"
        assert by_print == pytest.approx(by_function, rel=1e-9, abs=1e-12), f"{right} at {inputs}"
        agreed += 1
    assert agreed > 20


def thrown(dice, name, unit):
    low, high = RANGES.get(unit, (0.1, 10))
    value = math.exp(dice.uniform(math.log(low), math.log(high))) if low > 0 else dice.uniform(low, high)
    return dice.choice((1, -1)) * value if name in SIGNED else value


def test_the_reader_of_equations_can_fail():
    """It is no use if it takes anything: another figure, another sign and a name that is none are told."""
    assert eval(plain("area = pi / 4 * d^2")[1], dict(NAMES, d=2)) == pytest.approx(math.pi)  # noqa: S307
    for wrong in ("area = d.real", "area = [d]", "area = (lambda: d)()"):
        with pytest.raises(AssertionError):
            plain(wrong)
