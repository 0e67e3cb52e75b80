"""Scores are given on a scale, and at a step of it, that a line declares."""

from collections.abc import Iterator, Mapping

from filialog.findings import Finding, did_you_mean
from filialog.findings.finding import Place
from filialog.journal.records import Journal
from filialog.journal.rules.context import Context
from filialog.journal.rules.mentions import told_once

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report scales and steps that no line declares (N104); they are left out of every mean."""
    yield from told_once(_findings(context))


def _findings(context: Context) -> Iterator[Finding]:
    steps = _steps_by_scale(context.journal)
    quiet = context.journal.reported
    for event in context.journal.events():
        scale = event.text("scale")
        if event.kind_name == "graded" and scale is not None and scale not in quiet:
            if scale not in steps:
                yield _of_scale(scale, event.place_of("scale"), steps)
                continue
            for score in event.scores():
                if score.score not in steps[scale] and score.score not in quiet:
                    place = event.places.get(f"values.{score.score}", event.place_of("values"))
                    yield _of_step(score.score, scale, place, steps[scale])
        elif event.kind_name == "chosen":
            for scale, step in event.table("for"):
                if scale in steps and step not in steps[scale] and step not in quiet:
                    yield _of_step(step, scale, event.place_of("for"), steps[scale])


def _steps_by_scale(journal: Journal) -> Mapping[str, tuple[str, ...]]:
    """Return the steps of each scale; of one that two lines declare, those of both."""
    found: dict[str, tuple[str, ...]] = {}
    for line in journal.lines.values():
        for scale in line.scales:
            found[scale.name] = tuple(dict.fromkeys((*found.get(scale.name, ()), *scale.order)))
    return found


def _of_scale(scale: str, place: Place, steps: Mapping[str, tuple[str, ...]]) -> Finding:
    return Finding(
        code="N104",
        place=place,
        message=f"no line declares the scale `{scale}`",
        label="these scores enter no mean",
        helps=did_you_mean(scale, steps, kind="scale")
        or (f"declare it on the page of a line: `scales: {{{scale}: {{order: [worst, best]}}}}`",),
    )


def _of_step(step: str, scale: str, place: Place, known: tuple[str, ...]) -> Finding:
    listed = ", ".join(f"`{one}`" for one in known)
    return Finding(
        code="N104",
        place=place,
        message=f"the scale `{scale}` has no step `{step}`",
        label="left out of every mean",
        notes=(f"its steps are {listed}",),
        helps=did_you_mean(step, known, kind="step"),
    )
