"""Larch before the contract that every family keeps."""

from drylay.testing import FamilyContract


class TestLarch(FamilyContract):
    """Each law of families is a test of its own."""

    family = "larch"
