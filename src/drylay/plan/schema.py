"""JSON Schemas (2020-12) of plan, brief and catalogue, made from the nouns.

Run `python -m drylay.plan.schema docs/schema` to write them again after a noun has changed.
"""

import inspect
import json
import sys
import types
from datetime import date
from decimal import Decimal
from enum import Enum
from pathlib import Path
from typing import Any, Union, get_args, get_origin

import attrs
from attrs import field, frozen

from drylay.brief.model import Brief, Override
from drylay.materials.stock_model import KINDS, Article, ArticleRule, Catalogue, Record, StockLength
from drylay.plan.model import SCHEMA_VERSION, Plan
from drylay.plan.values import MONEY
from drylay.plan.words import INPUT_WORDS, WORDS, Words

Schema = dict[str, Any]
DIALECT = "https://json-schema.org/draft/2020-12/schema"
TEXT_LENGTH: Schema = {"type": "string", "description": 'a length with its unit, "6.045 m"'}
#: A value whose unit stands beside it, or a text that brings its own.
NUMBER_OR_TEXT: Schema = {"type": ["number", "string"]}
#: Lengths that have a price each.
_PRICED: Schema = {"properties": {"lengths": {"items": {"required": ["price"]}}}}
LEAVES: dict[Any, Schema] = {
    float: {"type": "number"},
    int: {"type": "integer"},
    bool: {"type": "boolean"},
    str: {"type": "string"},
    date: {"type": "string", "format": "date"},
    types.NoneType: {"type": "null"},
}


@frozen(kw_only=True)
class Making:
    """A schema being made: as a plan writes or as a person types, and the nouns so far."""

    typed: bool
    words: Words
    defs: dict[str, Schema] = field(factory=dict)


def schemas() -> dict[str, str]:
    """Return every schema as the text of its file, by file name."""
    made = {"plan": plan_schema(), "brief": brief_schema(), "catalogue": catalogue_schema()}
    return {
        f"{name}.json": json.dumps(schema, indent=1, sort_keys=True) + "\n"
        for name, schema in made.items()
    }


def plan_schema() -> Schema:
    """Return the schema of a plan file: every key is there, and no other."""
    making = Making(typed=False, words=WORDS)
    schema = _root("a drylay plan", Plan, making)
    making.defs["plan.Plan"]["properties"]["schema_version"] = {"const": SCHEMA_VERSION}
    return schema


def brief_schema() -> Schema:
    """Return the schema of a brief: keys in mm, or without `_mm` as text with a unit."""
    making = Making(typed=True, words=INPUT_WORDS)
    schema = _root("a drylay brief", Brief, making)
    whole = making.defs[_name(Brief)]
    whole["required"].remove("cover")  # with an outline it is the box around it
    whole["anyOf"] = [{"required": ["cover"]}, {"required": ["outline"]}]
    override = making.defs[_name(Override)]
    override["properties"]["value"] = dict(NUMBER_OR_TEXT)
    override["required"].remove("unit")
    return schema


def catalogue_schema() -> Schema:
    """Return the schema of a stock file: a head and tables of articles."""
    making = Making(typed=True, words=INPUT_WORDS)
    schema = _root("a drylay stock catalogue", Catalogue, making)
    making.defs[_name(ArticleRule)]["properties"]["value"] = dict(NUMBER_OR_TEXT)
    _flatten_records(making)
    _price_otherwise(making)
    whole = making.defs[_name(Catalogue)]
    head = {key: whole["properties"].pop(key) for key in [*whole["properties"]]
            if key not in KINDS}  # fmt: skip
    whole["properties"]["catalogue"] = {
        "type": "object",
        "properties": head,
        "required": whole["required"],
        "additionalProperties": False,
    }
    whole["required"] = ["catalogue"]
    return schema


def _flatten_records(making: Making) -> None:
    """Put what the list says of an article among the article's own keys, as files have it."""
    record = making.defs.pop(_name(Record))
    for article in get_args(Article):
        properties = making.defs[_name(article)]["properties"]
        properties |= {"record": None} | record["properties"]
        del properties["record"]


def _price_otherwise(making: Making) -> None:
    """Let an article have a price for a metre in place of its lengths', or one for each."""
    making.defs[_name(StockLength)]["required"].remove("price")
    money = _schema(Decimal, making)
    for article in get_args(Article):
        made = making.defs[_name(article)]
        rules: list[Schema] = []
        if "price_per_m" in made["properties"]:
            bare = {"properties": {"lengths": {"items": {"not": {"required": ["price"]}}}}}
            rules += [{"if": {"required": ["price_per_m"]}, "then": bare, "else": _PRICED}]
        elif "lengths" in made["properties"]:
            rules += [_PRICED]
        elif made["properties"]["packs"]["items"]["$ref"].endswith(".Pack"):
            made["properties"]["each"] = money
            made["required"].remove("packs")
            rules += [{"anyOf": [{"required": ["packs"]}, {"required": ["each"]}]}]
        made["allOf"] = [*made.get("allOf", []), *rules] or [{}]


def _root(title: str, noun: type, making: Making) -> Schema:
    ref = _schema(noun, making)
    return {"$schema": DIALECT, "title": title, **ref, "$defs": making.defs}


def _name(noun: type) -> str:
    """Return a noun's name with its room: two rooms have a Piece."""
    room = noun.__module__.removeprefix("drylay.").removesuffix(".model")
    return f"{room}.{noun.__name__}"


def _schema(hint: Any, making: Making) -> Schema:
    if attrs.has(hint):
        return _noun_ref(hint, making)
    if get_origin(hint) is tuple:
        return _tuple(get_args(hint), making)
    if get_origin(hint) in (Union, types.UnionType):
        return _union(get_args(hint), making)
    if hint is Decimal:
        money: Schema = {"type": "string", "pattern": f"^{MONEY.pattern}$"}
        return {"anyOf": [money, {"type": "integer"}]} if making.typed else money
    if issubclass(hint, Enum):
        return {"enum": [member.value for member in hint]}
    return dict(LEAVES[hint])


def _noun_ref(noun: type, making: Making) -> Schema:
    name = _name(noun)
    if name not in making.defs:
        making.defs[name] = {}  # holds the place: the noun may be met again below
        making.defs[name] |= _noun(noun, making)
    return {"$ref": f"#/$defs/{name}"}


def _noun(noun: type, making: Making) -> Schema:
    told = (inspect.getdoc(noun) or "").split("\n", 1)[0]
    schema: Schema = {
        "type": "object",
        "description": told,
        "properties": {},
        "required": [],
        "additionalProperties": False,
    }
    for attribute in attrs.fields(noun):
        schema["properties"][attribute.name] = _field(noun, attribute, making)
        if not making.typed or attribute.default is attrs.NOTHING:
            schema["required"].append(attribute.name)
    return _with_texts(schema) if making.typed else schema


def _field(noun: type, attribute: "attrs.Attribute[Any]", making: Making) -> Schema:
    schema = _schema(attribute.type, making)
    words = making.words.get((noun, attribute.name))
    if words and schema.get("type") == "array":
        schema["items"] = {"enum": list(words)}
    elif words:
        schema = {"enum": list(words)}
    governed_by = attribute.metadata.get("why")
    return schema | ({"description": f"governed by {governed_by}"} if governed_by else {})


def _with_texts(schema: Schema) -> Schema:
    """Return a noun's schema with every `x_mm` also to be had as a text `x`, but not both."""
    names = [name for name in schema["properties"] if name.endswith("_mm")]
    needed = [name for name in schema["required"] if name.endswith("_mm")]
    rules: list[Schema] = []
    for name in names:
        bare = name.removesuffix("_mm")
        listed = schema["properties"][name].get("type") == "array"
        texts: Schema = {"type": "array", "items": dict(TEXT_LENGTH)}
        worded = schema["properties"].get(bare)
        if worded is not None:  # a word of its own, or the lengths as texts
            schema["properties"][bare] = {"anyOf": [worded, texts]}
            continue
        schema["properties"][bare] = texts if listed else dict(TEXT_LENGTH)
        one, other = {"required": [name]}, {"required": [bare]}
        either: Schema = {"oneOf": [one, other]}
        rules.append(either if name in needed else {"not": {"required": [name, bare]}})
    schema["required"] = [name for name in schema["required"] if name not in needed]
    return schema | ({"allOf": rules} if rules else {})


def _tuple(args: tuple[Any, ...], making: Making) -> Schema:
    if args[-1] is ...:
        return {"type": "array", "items": _schema(args[0], making)}
    parts = [_schema(arg, making) for arg in args]
    return {"type": "array", "prefixItems": parts, "minItems": len(parts), "items": False}


def _union(args: tuple[Any, ...], making: Making) -> Schema:
    """Return the schema of a value that may be of several types; nobody can type a null."""
    kept = [arg for arg in args if not (making.typed and arg is types.NoneType)]
    parts = [_schema(arg, making) for arg in kept]
    return parts[0] if len(parts) == 1 else {"anyOf": parts}


def write(folder: Path) -> None:
    """Write every schema into a folder."""
    for name, text in schemas().items():
        (folder / name).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    write(Path(sys.argv[1]))
