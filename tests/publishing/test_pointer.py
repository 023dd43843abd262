"""JSON Pointers: the examples of RFC 6901, section 5, and what is refused."""

import pytest

from seamleaf.publishing.pointer import pointer, resolve

DOCUMENT = {"foo": ["bar", "baz"], "": 0, "a/b": 1, "c%d": 2, "m~n": 8, " ": 7}
"""The example document of RFC 6901, section 5, without the keys that need escapes in JSON."""


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("", DOCUMENT),
        ("/foo", ["bar", "baz"]),
        ("/foo/0", "bar"),
        ("/", 0),
        ("/a~1b", 1),
        ("/c%d", 2),
        ("/m~0n", 8),
        ("/ ", 7),
    ],
)
def test_pointers_name_what_the_rfc_says(path: str, value: object) -> None:
    assert resolve(DOCUMENT, path) == value


@pytest.mark.parametrize("path", ["foo", "/nothing", "/foo/2", "/foo/-", "/foo/01x", "/foo/0/x"])
def test_a_pointer_to_nothing_is_refused(path: str) -> None:
    with pytest.raises(LookupError):
        resolve(DOCUMENT, path)


@pytest.mark.parametrize("key", ["a/b", "m~n", "~1", "", "U4.B"])
def test_a_joined_pointer_leads_back_to_its_key(key: str) -> None:
    assert resolve({key: [5]}, pointer(key, 0)) == 5
