"""What a changed operator or constant would make of each value, seen while tests run on the code as it stands.

An expression that may be changed is worked out as it stands and, beside it, as each change would have it. A test in
which a change never gives another value can't notice it, whatever it checks, and need not be run; where another value
can't be told without effects of its own (what stands behind an `and` that ends early), it counts as one. Every
function of a module is given code that looks so; nothing is written into the tree.
"""

import ast
import math
import re
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from types import CodeType
from typing import Any

SWAPS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "+": "-", "-": "+", "*": "+", "/": "*", "and": "or", "or": "and"}
SWAPS |= {"==": "!=", "!=": "==", "is": "is not", "min": "max", "max": "min", "in": "not in"}
KINDS: dict[type[ast.AST], str] = {}
"""The text of each operator between two operands."""
_ALL = "+,-,*,/,//,%,**,|,&,^,<<,>>,@,<,<=,>,>=,==,!=,is,in,is not,not in"
for _sign in _ALL.split(","):
    _node: Any = ast.parse(f"a {_sign} b", mode="eval").body
    KINDS[type(_node.op if isinstance(_node, ast.BinOp) else _node.ops[0])] = _sign
SIGNS: dict[str, Callable[[Any, Any], Any]] = {one: eval(f"lambda a, b: a {one} b") for one in KINDS.values()}
Spot = tuple[int, int, str, str]
"""Line, column in bytes, old and new text of a change."""
_TABLE = re.compile(
    r'""".*?"""|"(?:\\.|[^"\\\n])*"|\'[^\'\n]*\'|#[^\n]*|(?P<number>(?<![\w.])\d+(?:\.\d+)?(?![\w.]|\s*=))', re.S
)
"""What stands in a table in TOML: texts and remarks, which may hold numbers, and the numbers that are values."""


def operators(node: ast.BinOp | ast.Compare | ast.BoolOp, lines: Sequence[bytes]) -> Iterator[tuple[int, Spot]]:
    """The operators between operands that stand on one line, each with its place among those of the node."""
    operands = [node.left, node.right] if isinstance(node, ast.BinOp) else None
    operands = operands or ([node.left, *node.comparators] if isinstance(node, ast.Compare) else list(node.values))
    for n, (one, two) in enumerate(pairwise(operands)):
        if one.end_lineno == two.lineno:
            between = lines[one.end_lineno - 1][one.end_col_offset : two.col_offset].decode()
            old = between.strip(" ()")
            if old in SWAPS:
                yield n, (one.end_lineno, one.end_col_offset + between.index(old), old, SWAPS[old])


def _in_table(text: str) -> Iterator[Spot]:
    """Every change of a number that the text of a table in TOML offers."""
    for found in _TABLE.finditer(text):
        if old := found["number"]:
            above = text[: found.start()]
            column = len(above[above.rfind("\n") + 1 :].encode())
            yield above.count("\n") + 1, column, old, str(2 * ast.literal_eval(old.lstrip("0") or "0") or 1)


def offered(name: str, text: str) -> Iterator[Spot]:
    """Every change that the text of a module offers, or of a table by its name; how much a cache keeps is no answer."""
    if name.endswith(".toml"):
        yield from _in_table(text)
        return
    lines, tree = text.encode().splitlines(), ast.parse(text)
    caches = {one.value for one in ast.walk(tree) if isinstance(one, ast.keyword) and one.arg == "maxsize"}
    for node in [one for one in ast.walk(tree) if one not in caches]:
        if isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
            old = ast.get_source_segment(text, node) or ""
            if lines[node.lineno - 1][node.col_offset :].startswith(old.encode()):  # not so in some f-strings
                yield node.lineno, node.col_offset, old, str(2 * node.value or 1)
        elif isinstance(node, ast.Name) and node.id in ("min", "max"):
            yield node.lineno, node.col_offset, node.id, SWAPS[node.id]
        elif isinstance(node, ast.BinOp | ast.Compare | ast.BoolOp):
            yield from (spot for _, spot in operators(node, lines))


def at_import(node: ast.AST) -> Iterator[ast.AST]:
    """The parts of a module that are worked out when it is imported: all but the insides of its functions."""
    yield node
    for field, value in ast.iter_fields(node):
        if not (field == "body" and isinstance(node, ast.FunctionDef | ast.Lambda)):
            for one in value if isinstance(value, list) else [value]:
                if isinstance(one, ast.AST):
                    yield from at_import(one)


def outermost(code: CodeType) -> Iterator[CodeType]:
    """The functions, methods and lambdas of a module's code that hang in no other function."""
    for one in code.co_consts:
        if isinstance(one, CodeType):
            if one.co_flags & 0x2:  # CO_NEWLOCALS: a function; the body of a class has names of its own alone
                yield one
            else:
                yield from outermost(one)


def same(one: Any, two: Any) -> bool:
    """True if nothing could tell two values apart."""
    if one is two:
        return True
    if type(one) is not type(two):
        return False
    if isinstance(one, float) and one == two == 0:
        return math.copysign(1, one) == math.copysign(1, two)
    equal = one == two
    return equal if isinstance(equal, bool) else bool(equal.all())


class Sight:
    """Notes in `seen` the numbers of the changes that would have given another value."""

    def __init__(self) -> None:
        self.seen: set[int] = set()
        self.known: list[Any] = []

    def weigh(self, number: int, value: Any, other: Callable[[], Any], truth: bool = False) -> None:
        """Hold a value against what a change makes of it; a failure is another value."""
        if number not in self.seen:
            try:
                two = other()
                alike = bool(two) == bool(value) if truth else same(value, two)
            except Exception:
                alike = False
            if not alike:
                self.seen.add(number)

    def hit(self, n: int, value: Any = None) -> Any:
        """A value that changes give otherwise for certain."""
        self.seen.update(self.known[n])
        return value

    def both(self, n: int, left: Any, right: Any) -> Any:
        """Two operands about an operator."""
        sign, others = self.known[n]
        try:
            value = sign(left, right)
        except Exception:
            self.seen.update(number for number, *_ in others)
            raise
        for number, other_sign, lefts, rights in others:
            self.weigh(number, value, lambda s=other_sign, a=lefts, b=rights: s(*(a or [left]), *(b or [right])))
        return value

    def least(self, n: int) -> Callable[..., Any]:
        """`min` or `max`."""
        number, used, other = self.known[n]

        def both(*given: Any, **how: Any) -> Any:
            kept = [list(given[0])] if len(given) == 1 else given
            value = used(*kept, **how)
            self.weigh(number, value, lambda: other(*kept, **how))
            return value

        return both

    def row(self, n: int, *operands: Callable[[], Any]) -> Any:
        """A chain of comparisons, or operands between `and` or `or`: each is worked out only where it is needed."""
        work, others, truth = self.known[n]
        got: dict[int, Any] = {}

        def needed(k: int) -> Any:
            if k not in got:
                got[k] = operands[k]()
            return got[k]

        value = work(needed)
        for number, other in others:
            self.weigh(number, value, lambda other=other: other(got.__getitem__), truth)
        return value


def _compared(signs: Sequence[str], instead: dict[int, Any]) -> Callable[[Callable[[int], Any]], Any]:
    """How a chain of comparisons is worked out, with other operands in some places."""

    def work(of: Callable[[int], Any]) -> Any:
        value: Any = True
        for n, sign in enumerate(signs):
            one, two = (instead[k] if k in instead else of(k) for k in (n, n + 1))
            value = SIGNS[sign](one, two)
            if not value:
                break
        return value

    return work


def _joined(words: Sequence[str]) -> Callable[[Callable[[int], Any]], Any]:
    """How operands with `and` and `or` between them are worked out: `and` binds tighter."""
    groups: list[list[int]] = [[0]]
    for n, word in enumerate(words, 1):
        if word == "and":
            groups[-1].append(n)
        else:
            groups.append([n])

    def work(of: Callable[[int], Any]) -> Any:
        value: Any = None
        for group in groups:
            for one in group:
                value = of(one)
                if not value:
                    break
            if value:
                break
        return value

    return work


class Looking(ast.NodeTransformer):
    """Puts the sight into the functions of a module."""

    def __init__(self, text: str, numbers: dict[Spot, int], values: dict[str, list[tuple[int, Any]]], sight: Sight):
        """`numbers`: the number of each change in functions; `values`: what changes make of names of the module."""
        self.lines, self.numbers, self.values, self.sight = text.encode().splitlines(), numbers, values, sight
        self.tree = ast.parse(text)
        self.above = {child: node for node in ast.walk(self.tree) for child in ast.iter_child_nodes(node)}
        self.inside: list[ast.AST] = []
        self.placed: set[int] = set()

    def looked(self) -> ast.Module:
        """The module, with what it is that changes it in every function."""
        self.visit(self.tree)
        for spot, number in self.numbers.items():
            if number not in self.placed:
                self._at_head(spot[0], number)
        return ast.fix_missing_locations(self.tree)

    def _at_head(self, line: int, number: int) -> None:
        """What no expression shows (a pattern, a default) counts for all who enter the function."""
        functions = [node for node in ast.walk(self.tree) if isinstance(node, ast.FunctionDef)]
        within = [f for f in functions if f.lineno <= line <= (f.end_lineno or line)]
        if within:
            inner = max(within, key=lambda f: f.lineno)
            inner.body.insert(0, ast.copy_location(ast.Expr(self._call("hit", [number])), inner.body[0]))

    def _call(self, what: str, known: Any, *given: ast.expr) -> ast.Call:
        """A call of the sight, which finds `known` under a number."""
        self.sight.known.append(known)
        number = ast.Constant(len(self.sight.known) - 1)
        seer = ast.Attribute(ast.Name("_sight", ast.Load()), what, ast.Load())
        return ast.Call(seer, [number, *given], [])

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        node.args.defaults = [self.visit(one) for one in node.args.defaults]
        self.inside.append(node)
        node.body = [self.visit(one) for one in node.body]
        self.inside.pop()
        return node

    def visit_Lambda(self, node: ast.Lambda) -> ast.AST:
        self.inside.append(node)
        node.body = self.visit(node.body)
        self.inside.pop()
        return node

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST:
        node.value = self.visit(node.value) if node.value is not None else None
        return node

    def visit_match_case(self, node: ast.match_case) -> ast.AST:
        node.guard = self.visit(node.guard) if node.guard is not None else None
        node.body = [self.visit(one) for one in node.body]
        return node

    def visit_FormattedValue(self, node: ast.FormattedValue) -> ast.AST:
        node.value = self.visit(node.value)
        return node

    def _others(self, node: ast.expr) -> list[tuple[int, Any]]:
        """Numbers and values of the changes of a number, or of a name that stands for one; nothing for the rest."""
        if not self.inside:
            return []
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            return [(n, -value) for n, value in self._others(node.operand) if isinstance(value, int | float)]
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
            return self.values.get(node.id, [])
        if isinstance(node, ast.Constant):
            found = [(n, s[3]) for s, n in self.numbers.items() if s[:2] == (node.lineno, node.col_offset)]
            return [(n, ast.literal_eval(new)) for n, new in found]
        return []

    def _plain(self, node: ast.expr) -> ast.AST:
        """A value that stands where nothing is worked out of it at once."""
        others = [n for n, _ in self._others(node)]
        self.placed.update(others)
        return self._call("hit", others, node) if others else node

    def visit_Constant(self, node: ast.Constant) -> ast.AST:
        return self._plain(node)

    def visit_Name(self, node: ast.Name) -> ast.AST:
        number = self.numbers.get((node.lineno, node.col_offset, node.id, SWAPS.get(node.id, "")))
        if number is None or not self.inside:
            return self._plain(node)
        self.placed.add(number)
        above = self.above.get(node)
        if not isinstance(above, ast.Call) or above.func is not node:
            return self._call("hit", [number], node)
        used, other = (min, max) if node.id == "min" else (max, min)
        return self._call("least", (number, used, other))

    def _operand(self, node: ast.expr) -> ast.expr:
        """An operand whose own changes are weighed with the operator."""
        return node if self._others(node) else self.visit(node)

    def visit_BinOp(self, node: ast.BinOp) -> ast.AST:
        return self._between(node, [node.left, node.right], [KINDS[type(node.op)]])

    def visit_Compare(self, node: ast.Compare) -> ast.AST:
        return self._between(node, [node.left, *node.comparators], [KINDS[type(op)] for op in node.ops])

    def _between(self, node: ast.BinOp | ast.Compare, operands: list[ast.expr], signs: list[str]) -> ast.AST:
        swapped = [(n, self.numbers[spot], spot[3]) for n, spot in operators(node, self.lines) if spot in self.numbers]
        changed = [(k, number, value) for k, one in enumerate(operands) for number, value in self._others(one)]
        if not self.inside or not (swapped or changed):
            return self.generic_visit(node)
        numbers = [one[1] for one in (*swapped, *changed)]
        self.placed.update(numbers)
        made = [self._operand(one) for one in operands]
        loose = signs == ["*"] and swapped and isinstance(self.above.get(node), ast.BinOp)
        if loose:  # a + for a * binds otherwise: what it makes of the whole is not told here
            made[0] = self._call("hit", [one[1] for one in swapped], made[0])
        if len(operands) == 2:
            sign = SIGNS[signs[0]]
            others = [] if loose else [(number, SIGNS[new], [], []) for _, number, new in swapped]
            others += [(number, sign, [] if k else [value], [value] if k else []) for k, number, value in changed]
            return self._call("both", (sign, others), *made)
        rest = [(number, _compared([*signs[:n], new, *signs[n + 1 :]], {})) for n, number, new in swapped]
        rest += [(number, _compared(signs, {k: value})) for k, number, value in changed]
        return self._row(node, made, numbers, (_compared(signs, {}), rest, False))

    def visit_BoolOp(self, node: ast.BoolOp) -> ast.AST:
        word = "and" if isinstance(node.op, ast.And) else "or"
        swapped = [(n, self.numbers[spot]) for n, spot in operators(node, self.lines) if spot in self.numbers]
        if not self.inside or not swapped:
            return self.generic_visit(node)
        self.placed.update(number for _, number in swapped)
        words = [word] * (len(node.values) - 1)
        rest = [(number, _joined([*words[:n], SWAPS[word], *words[n + 1 :]])) for n, number in swapped]
        truth = self._asked(node)
        made = [self.visit(one) for one in node.values]
        return self._row(node, made, [number for _, number in swapped], (_joined(words), rest, truth))

    def _asked(self, node: ast.AST) -> bool:
        """True where nothing but the truth of a value is asked for."""
        above = self.above[node]
        if isinstance(above, ast.If | ast.IfExp | ast.While):
            return above.test is node
        if isinstance(above, ast.comprehension):
            return node in above.ifs
        return isinstance(above, ast.UnaryOp) and isinstance(above.op, ast.Not)

    def _row(self, node: Any, made: list[Any], numbers: list[int], known: Any) -> ast.AST:
        """Operands that are worked out one by one; a name given among them would be lost in a function of its own."""
        if any(isinstance(one, ast.NamedExpr) for one in ast.walk(node)):
            first = self._call("hit", numbers, made[0])
            if isinstance(node, ast.BoolOp):
                node.values = [first, *made[1:]]
            else:
                node.left, node.comparators = first, made[1:]
            return node
        none = ast.arguments(posonlyargs=[], args=[], kwonlyargs=[], kw_defaults=[], defaults=[])
        return self._call("row", known, *(ast.Lambda(none, one) for one in made))
