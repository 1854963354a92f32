"""The laws that every family keeps."""

from drylay.testing import FamilyContract
from drylay_hardwood.family import hardwood


class TestHardwood(FamilyContract):
    """Each law is a test of its own."""

    family = hardwood()
