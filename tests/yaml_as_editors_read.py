"""A file's values as an editor that knows YAML 1.2 sees them: some without quotes are numbers."""

from __future__ import annotations

import re
from typing import Any

import yaml

_INTEGER = re.compile(r"[-+]?[0-9]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_KNOWN: dict[str, Any] = dict.fromkeys(("", "~", "null", "Null", "NULL"))
_KNOWN |= dict.fromkeys(("true", "True", "TRUE"), True)
_KNOWN |= dict.fromkeys(("false", "False", "FALSE"), False)


def values_of(text: str) -> Any:
    """Return what stands in a file, by the core schema of YAML 1.2.

    Raises
    ------
    yaml.YAMLError
        If it is no YAML.
    """
    return _made(yaml.compose(text, Loader=yaml.SafeLoader))


def _made(node: Any) -> Any:
    if node is None:
        return None
    if isinstance(node, yaml.MappingNode):
        return {str(key.value): _made(value) for key, value in node.value}
    if isinstance(node, yaml.SequenceNode):
        return [_made(each) for each in node.value]
    return node.value if node.style in ("'", '"', "|", ">") else plain(node.value)


def plain(text: str) -> Any:
    """Return a scalar without quotes as a number, a truth value or a text.

    Examples
    --------
    >>> plain("60"), plain("4 x 20"), plain("yes"), plain("true"), plain("2.50")
    (60, '4 x 20', 'yes', True, 2.5)
    """
    if text in _KNOWN:
        return _KNOWN[text]
    if _INTEGER.fullmatch(text):
        return int(text)
    return float(text) if _FLOAT.fullmatch(text) else text
