"""What ends a study before its last row."""

from drylay.errors import DrylayError


class StudyStopped(DrylayError):  # noqa: N818 - named by what became of the study
    """Workers go away whatever they are given, or an executor broke that was handed in.

    What was planned until then stands in the journal, and the study goes on from there.
    """
