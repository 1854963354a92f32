"""The laws that every catalogue keeps, and the kit that looks whether one does."""

from collections.abc import Callable, Collection, Iterator
from functools import partial

from attrs import evolve, frozen

from drylay.materials.loader import check_catalogue, load_catalogue
from drylay.materials.stock_model import Catalogue
from drylay.plugins.shapes import kind_of, told
from drylay.plugins.stock_form import stock_form
from drylay.testing.model import BrokenLaw
from drylay.testing.shelves import (
    Wrongs,
    codes,
    families,
    hangers,
    head,
    lengths,
    metals,
    overrides,
    packs,
    prices,
    shape,
    sizes,
    steep_lengths,
    steep_packs,
)

#: Yields pairs of where and what, for one catalogue.
StockLaw = Callable[[Catalogue], Wrongs]
SHAPE = "shape"


@frozen(kw_only=True)
class _Law:
    says: str
    look: StockLaw
    wanted: str


def check_stock(
    catalogue: Catalogue, *, known_families: Collection[str] | None = None
) -> tuple[BrokenLaw, ...]:
    """Return every law that a catalogue breaks, nothing for a good one.

    Args:
        catalogue: The catalogue, out of a file or made by code.
        known_families: The ids of families that its boards may name; None where any will do.
    """
    if type(catalogue) is not Catalogue:
        wanted = STOCK_LAWS[SHAPE].wanted
        return (_broken(SHAPE, "catalogue", kind_of(catalogue), wanted),)
    broken = list(_broken_of(SHAPE, STOCK_LAWS[SHAPE], catalogue))
    if broken:
        return tuple(broken)
    named = evolve(STOCK_LAWS["families"], look=partial(families, known=known_families))
    laws = {name: law for name, law in STOCK_LAWS.items() if name != SHAPE} | {"families": named}
    return tuple(each for name, law in laws.items() for each in _broken_of(name, law, catalogue))


def _broken(law: str, subject: str, found: str, wanted: str) -> BrokenLaw:
    return BrokenLaw(law=law, subject=subject, found=found, wanted=wanted)


def _broken_of(name: str, law: _Law, catalogue: Catalogue) -> Iterator[BrokenLaw]:
    try:
        found = tuple(law.look(catalogue))
    except Exception as error:
        found = (("catalogue", f"what cannot be looked at: {told(error)}"),)
    for where, wrong in found:
        yield _broken(name, where, wrong, law.wanted)


def _loads(catalogue: Catalogue) -> Wrongs:
    for fault in check_catalogue(stock_form(catalogue)):
        yield fault.path, f"{fault.found} where {fault.wanted} is wanted"


def _round_trip(catalogue: Catalogue) -> Wrongs:
    told_as = stock_form(catalogue)
    if not check_catalogue(told_as) and load_catalogue(told_as) != catalogue:
        yield "catalogue", "another catalogue"


#: Every law of catalogues by its name: what it says, what looks, what is wanted.
STOCK_LAWS: dict[str, _Law] = {
    SHAPE: _Law(says="a Catalogue, its articles nouns of their kinds", look=shape,
                wanted="the nouns of drylay.materials.stock_model"),
    "head": _Law(says="name, currency and tax are told", look=head,
                 wanted="a name, a currency of ISO 4217 with its decimals, tax in or out"),
    "codes": _Law(says="every article has a code of its own", look=codes,
                  wanted="each code once, and a title"),
    "prices": _Law(says="prices are above nothing, in whole coins", look=prices,
                   wanted="a Decimal above nothing with the currency's decimals"),
    "lengths": _Law(says="lengths rise, each once", look=lengths,
                    wanted="lengths above nothing, shortest first"),
    "packs": _Law(says="packs rise, each once", look=packs,
                  wanted="whole numbers above nothing, smallest first"),
    "sizes": _Law(says="sizes are finite and above nothing, thickness the least", look=sizes,
                  wanted="true sizes, the narrow face as thickness"),
    "metals": _Law(says="metals are those there is a rule for", look=metals,
                   wanted="one of METALS"),
    "families": _Law(says="boards name families there are", look=partial(families, known=None),
                     wanted="a family that is known"),
    "overrides": _Law(says="the merchant's own rules are rules, within bounds, with a source",
                      look=overrides, wanted="a rule of QUESTIONS once, in bounds, with a source"),
    "hangers": _Law(says="hangers name a screw that is sold", look=hangers,
                    wanted="the code of a screw in this catalogue"),
    "length prices": _Law(says="a longer length costs no less, and a metre about the same",
                          look=steep_lengths,
                          wanted="a longer length no cheaper, and a metre about the same"),
    "pack prices": _Law(says="a larger pack costs more, and each in it about the same",
                        look=steep_packs,
                        wanted="a larger pack no cheaper, and each about the same"),
    "loads": _Law(says="it can be read as a stock file", look=_loads, wanted="no fault"),
    "round trip": _Law(says="a stock file of it is the same catalogue again", look=_round_trip,
                       wanted="the same catalogue"),
}  # fmt: skip
