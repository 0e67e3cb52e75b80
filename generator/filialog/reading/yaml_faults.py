"""What the YAML parser could not read, in the words of the journal."""

import re
from typing import NamedTuple

from yaml import YAMLError
from yaml.error import MarkedYAMLError

from filialog.findings.finding import Place
from filialog.reading.sheet import Sheet

__all__ = ["NO_SPACE", "report_decimal_comma", "report_no_space", "report_syntax"]

NO_SPACE = re.compile(r"[A-Za-z][\w-]*:[^\s/]")
"""A key with its value directly behind the colon; a web address is none."""

_CURLY = re.compile(r"[“”„‟«»‘’‚]")
_QUOTE = 'put the whole value in quotes, as in `note: "..."`'
_LINE_FORM = "write `key: value` with a space after the colon, one to a line"


def report_decimal_comma(sheet: Sheet, place: Place, written: str) -> None:
    """Report a number with a comma."""
    whole, _, rest = written.partition(",")
    helps = [f"write `{whole}.{rest}`"]
    if re.match(r"\d{3}(?!\d)", rest):
        helps.append(f"or `{whole}{rest}`, where the comma parts thousands")
    sheet.fault(
        "R301",
        place,
        f"`{written}` has a comma where a decimal point belongs",
        helps=helps,
    )


def report_no_space(sheet: Sheet, place: Place, written: str) -> None:
    """Report a colon with no space behind it."""
    key, _, value = written.partition(":")
    sheet.fault(
        "R114",
        place,
        f"`{written}` has no space after the colon",
        helps=(f"write `{key}: {value}`",),
    )


class _Fault(NamedTuple):
    code: str
    message: str
    helps: tuple[str, ...]
    column: int
    length: int = 1


def report_syntax(sheet: Sheet, error: YAMLError, *, first_line: int) -> None:
    """Lay one finding on the desk for a parser's error."""
    problem, line, column = "", 0, 0
    context, context_line, context_column = "", 0, 0
    if isinstance(error, MarkedYAMLError):
        problem, context = error.problem or "", error.context or ""
        if error.problem_mark is not None:
            line, column = error.problem_mark.line, error.problem_mark.column
        if error.context_mark is not None:
            context_line, context_column = error.context_mark.line, error.context_mark.column
    if "could not find expected ':'" in problem:
        line, column = context_line, context_column
    if _opened_and_not_closed(problem, context):
        source = sheet.line(first_line + context_line)
        fault = _not_closed(source, context_column)
        line = context_line
    else:
        source = sheet.line(first_line + line)
        fault = _classify(problem, context, source, column, context_column)
    sheet.fault(
        fault.code,
        Place(sheet.path, first_line + line, fault.column + 1, fault.length),
        fault.message,
        helps=fault.helps,
    )


def _opened_and_not_closed(problem: str, context: str) -> bool:
    if "unexpected end of stream" in problem:
        return True
    return "did not find expected ','" in problem and "flow" in context


def _not_closed(source: str, column: int) -> _Fault:
    sign = source[column : column + 1]
    closing = {"{": "}", "[": "]"}.get(sign, sign)
    helps: tuple[str, ...] = (f"put `{closing}` where it ends",)
    if sign == "'":
        helps = ("close it with `'`, or put text with an apostrophe in double quotes",)
    elif sign in "{[":
        helps = (
            f"put `{closing}` where it ends, and a comma between two values",
            "put text that holds a bracket, a comma or a colon in quotes",
        )
    return _Fault("R115", f"`{sign}` is opened here and not closed", helps, column)


def _classify(problem: str, context: str, source: str, column: int, context_column: int) -> _Fault:
    sign = source[column : column + 1]
    if "nesting depth" in problem:
        return _Fault("R107", "far too many levels inside one another", (), column)
    if "\t" in source[: column + 1] and ("tab" in problem or sign == "\t"):
        return _Fault(
            "R110",
            "a tab stands where spaces belong",
            ("indent with spaces; two to a level are usual",),
            source.index("\t"),
        )
    if _CURLY.search(source):
        found = _CURLY.search(source)
        assert found is not None
        return _Fault(
            "R112",
            f"`{found.group()}` does not quote: the line cannot be read",
            ('use straight quotes, `"` on both sides',),
            found.start(),
        )
    if "block scalar" in context:
        return _sign_at_beginning(source, context_column)
    if "alias" in context or "anchor" in context or "tag" in context:
        return _sign_at_beginning(source, context_column)
    if "cannot start any token" in problem or "expected node content" in problem:
        return _sign_at_beginning(source, column)
    if "mapping keys are not allowed" in problem:
        return _sign_at_beginning(source, column)
    if "block sequence entries" in problem:
        return _Fault(
            "R111",
            "`-` after a colon does not begin a list here",
            ("put each item on a line of its own below the key, or write `[one, two]`",),
            column,
        )
    if "mapping values are not allowed" in problem:
        return _second_colon(source, column)
    if "escape character" in problem:
        return _Fault(
            "R111",
            "`\\` has a meaning of its own inside double quotes",
            ("use single quotes, or write `\\\\`",),
            column,
        )
    if "directive" in problem or "directive" in context:
        return _sign_at_beginning(source, context_column)
    return _loose_line(source, column)


def _sign_at_beginning(source: str, column: int) -> _Fault:
    sign = source[column : column + 1]
    rest = re.split(r"[,}\]]" if "{" in source or "[" in source else r"$", source[column:])[0]
    value = rest.rstrip()
    if sign in "}]," or not value:
        what = f"`{sign}` stands here without a value before it" if sign else "a value is missing"
        return _Fault("R101", what, ("write the value, or delete the key",), column)
    helps = [f'put it in quotes, as in `"{value}"`']
    if sign == "?":
        helps = ["leave out what is not known, or write a count as `some` or `~12`"]
    elif sign == ">":
        helps.append("a count of at least so many is written `13+`")
    message = f"`{value}` cannot be read: `{sign}` at the beginning has a meaning of its own"
    return _Fault("R111", message, tuple(helps), column, len(value))


def _second_colon(source: str, column: int) -> _Fault:
    before = source[:column]
    if ":" in before.strip():
        return _Fault("R101", "a second colon in one line", (_QUOTE,), column)
    helps = (
        "give the line the same indent as the key above, or put keys below a key that has no value",
        "a text of several lines goes below the front matter",
    )
    return _Fault("R101", "this key does not fit below the line before it", helps, column)


def _loose_line(source: str, column: int) -> _Fault:
    stripped = source.strip()
    start = len(source) - len(source.lstrip())
    after_value = source[:column].strip()
    if after_value and source[column:].strip() and after_value != "-":
        return _Fault(
            "R101",
            f"`{source[column:].strip()}` stands after a value that has ended",
            ("put the whole value in one pair of quotes", "close each bracket once"),
            column,
            len(source[column:].rstrip()),
        )
    if NO_SPACE.match(stripped):
        key, _, value = stripped.partition(":")
        return _Fault(
            "R114",
            f"`{stripped}` has no space after the colon",
            (f"write `{key}: {value}`",),
            start,
            len(stripped),
        )
    if ":" not in stripped:
        return _Fault(
            "R101",
            f"`{stripped}` is no `key: value`" if stripped else "the line cannot be read",
            (_LINE_FORM,),
            start,
            max(1, len(stripped)),
        )
    return _Fault(
        "R101",
        "the line does not fit the indent of the lines above",
        ("indent keys of one level by the same number of spaces",),
        start,
        max(1, len(stripped)),
    )
