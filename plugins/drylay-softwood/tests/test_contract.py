"""The laws that every family keeps."""

from drylay.testing import FamilyContract
from drylay_softwood.family import softwood


class TestSoftwood(FamilyContract):
    """Each law is a test of its own."""

    family = softwood()
