"""Everything drylay raises: one root, few classes, each carrying data.

Bad input raises with *all* its faults at once. A poor deck is not an error: it is a
`drylay.findings.Finding`.
"""

from attrs import frozen


@frozen(kw_only=True)
class Fault:
    """One thing that is wrong with an input: where, what was found, what was wanted.

    `article` is the code of the article of a stock file that it is about, "" where it has none.
    """

    path: str
    found: str
    wanted: str
    nearest: str = ""
    file: str = ""
    line: int = 0
    column: int = 0
    article: str = ""

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}:{self.column}: " if self.line else ""
        if self.file and not self.line:
            place = f"{self.file}: "
        fix = f"; nearest fix: {self.nearest}" if self.nearest else ""
        code = f" ({self.article})" if self.article else ""
        return f"{place}{self.path}{code}: found {self.found}, wanted {self.wanted}{fix}"

    def to_dict(self) -> dict[str, str | int]:
        """Return the fault as plain data, for a web form."""
        return {
            "file": self.file,
            "line": self.line,
            "column": self.column,
            "path": self.path,
            "found": self.found,
            "wanted": self.wanted,
            "nearest": self.nearest,
            "article": self.article,
        }


class DrylayError(Exception):
    """Root of everything drylay raises on purpose."""


class InputError(DrylayError, ValueError):
    """An input file or mapping cannot be used; `faults` lists every reason."""

    noun = "input"

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        self.faults = tuple(faults)
        count = len(self.faults)
        head = f"{self.noun} cannot be used, {count} fault{'s' if count != 1 else ''}:"
        super().__init__("\n".join([head, *(f"  {fault}" for fault in self.faults)]))

    def to_dict(self) -> dict[str, object]:
        """Return all faults as plain data, for a web form."""
        return {"error": self.noun, "faults": [fault.to_dict() for fault in self.faults]}

    def __reduce__(self) -> tuple[type["InputError"], tuple[tuple[Fault, ...]]]:
        return type(self), (self.faults,)


class BriefError(InputError):
    """A brief cannot be planned from."""

    noun = "brief"


class CatalogueError(InputError):
    """A stock catalogue cannot be used."""

    noun = "catalogue"


class FamilyError(InputError):
    """A family's table cannot be used."""

    noun = "family table"


class PlanFileError(InputError):
    """A plan file cannot be read back."""

    noun = "plan file"


class GardenError(InputError):
    """A garden file cannot be used, or nothing follows of what it tells."""

    noun = "garden file"


class SettingOutError(InputError):
    """Pegs cannot be moved, or lines strung, from what is told."""

    noun = "question of setting out"


class PapersError(InputError):
    """Papers cannot be made or written as asked."""

    noun = "request for papers"


class PluginsError(InputError):
    """Plugins are faulty, or named that are not there, where that is not to be borne."""

    noun = "set of plugins"


class UncoveredError(InputError):
    """A design basis does not cover what is asked: a stop for a licensed person, never a guess."""

    noun = "question to a design basis"


class UnknownPathError(DrylayError, KeyError):
    """A path names nothing in this plan or brief, or a code no article.

    `noun` says which of the two; `nearest` names what may be meant.
    """

    def __init__(self, path: str, nearest: tuple[str, ...] = (), *, noun: str = "path") -> None:
        self.path, self.nearest, self.noun = path, nearest, noun
        super().__init__(path)

    def __str__(self) -> str:
        hint = f"; did you mean {', '.join(self.nearest)}?" if self.nearest else ""
        return f"no such {self.noun}: {self.path}{hint}"


class Cancelled(DrylayError):  # noqa: N818 - the caller asked for it: not a fault
    """The caller's cancel token was set."""


class PlannerFault(DrylayError):  # noqa: N818 - a fault of ours, named as the trade would
    """The audit stopped a plan in which the planner saw no stop: our fault, never a plan."""

    def __init__(self, findings: tuple[object, ...]) -> None:
        self.findings = findings
        lines = "\n".join(f"  {finding}" for finding in findings)
        super().__init__(f"the audit stopped a plan the planner thought sound:\n{lines}")
