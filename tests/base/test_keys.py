import pytest

from sheets.base.keys import join_key, key_order, numbered, slug


def test_a_key_is_made_of_slugs() -> None:
    assert slug("Reading nook, 2") == "reading-nook-2"
    assert slug("Crème brûlée") == "creme-brulee"
    assert join_key("cases", slug("Flanking"), "left", numbered("shelf", 3)) == "cases/flanking/left/shelf-3"


@pytest.mark.parametrize("name", ["", "---", "\u4e66"])
def test_a_name_without_a_letter_is_no_key(name: str) -> None:
    with pytest.raises(ValueError, match="no letter"):
        slug(name)


def test_a_step_that_is_no_slug_is_refused() -> None:
    with pytest.raises(ValueError, match="not a step"):
        join_key("cases", "Left Side")
    with pytest.raises(ValueError, match="start at 1"):
        numbered("shelf", 0)


def test_shelf_10_comes_after_shelf_9() -> None:
    keys = ["cases/a/shelf-10", "cases/a/shelf-9", "cases/a/back", "cases/a/shelf-9/edge"]
    assert sorted(keys, key=key_order) == [
        "cases/a/back",
        "cases/a/shelf-9",
        "cases/a/shelf-9/edge",
        "cases/a/shelf-10",
    ]
