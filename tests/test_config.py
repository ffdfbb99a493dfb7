import os
from pathlib import Path

import platformdirs
import pytest

from woodref.config import config_path, load_config, maker_table
from woodref.errors import InputError


def test_path_is_the_named_file_else_the_platforms(monkeypatch, tmp_path):
    monkeypatch.setenv("WOODREF_CONFIG", str(tmp_path / "mine.toml"))
    assert config_path() == tmp_path / "mine.toml"
    monkeypatch.delenv("WOODREF_CONFIG")
    assert config_path().name == "config.toml"
    assert "woodref" in config_path().parts


@pytest.mark.parametrize("base", [None, "", "/somewhere/else"])
def test_path_on_linux_is_the_one_platformdirs_gives(monkeypatch, base):
    monkeypatch.delenv("WOODREF_CONFIG", raising=False)
    monkeypatch.delenv("XDG_CONFIG_HOME", raising=False)
    if base is not None:
        monkeypatch.setenv("XDG_CONFIG_HOME", base)
    folder = platformdirs.user_config_dir("woodref", appauthor=False)
    assert str(config_path().parent) == folder


def test_keys(tmp_path):
    file = tmp_path / "config.toml"
    file.write_text('units = "si"\nprices = "lists/prices.csv"\n')
    assert load_config(file) == {"units": "si", "prices": str(tmp_path / "lists" / "prices.csv")}
    file.write_text("")
    assert load_config(file) == {}


def test_the_yard_is_a_list_of_names(tmp_path):
    file = tmp_path / "config.toml"
    file.write_text('yard = ["cherry", "white oak"]\n')
    assert load_config(file) == {"yard": "cherry, white oak"}
    for wrong, words in (("[]", "the yard is empty"), ('"cherry"', "yard must be a list")):
        file.write_text(f"yard = {wrong}\n")
        with pytest.raises(InputError, match=words):
            load_config(file)


def test_the_maker_is_a_table_and_no_default_of_an_option(tmp_path):
    file = tmp_path / "config.toml"
    file.write_text('units = "si"\n[maker]\nname = "A shop"\n')
    assert load_config(file) == {"units": "si"}
    assert maker_table(file) == (file, {"name": "A shop"})
    file.write_text('maker = "A shop"\n')
    with pytest.raises(InputError, match=r"maker must be a table \[maker\]"):
        load_config(file)
    file.write_text("")
    assert maker_table(file) is None


def test_no_file_is_no_defaults_unless_it_was_named(monkeypatch, tmp_path):
    monkeypatch.delenv("WOODREF_CONFIG", raising=False)
    monkeypatch.setattr("woodref.config.config_path", lambda: tmp_path / "none.toml")
    assert load_config() == {}
    monkeypatch.setenv("WOODREF_CONFIG", str(tmp_path / "none.toml"))
    with pytest.raises(InputError, match=r"none\.toml does not exist"):
        load_config()


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('unit = "si"', "unknown key 'unit'; nearest: units"),
        ("qqq = 1", "unknown key 'qqq'; use units, prices"),
        ('units = "metric"', "units cannot be 'metric'; use us or si"),
        ("units = 3", "units must be text"),
        ("units = ", "is not valid TOML"),
        ("[units]\na = 1", "units must be text"),
    ],
)
def test_a_wrong_file_is_one_line_naming_it(tmp_path, text, message):
    file = tmp_path / "config.toml"
    file.write_text(text)
    with pytest.raises(InputError, match=message) as caught:
        load_config(file)
    assert str(caught.value).startswith(str(file))


def test_the_null_device_is_an_empty_file_and_a_folder_is_none(monkeypatch, tmp_path):
    monkeypatch.setenv("WOODREF_CONFIG", os.devnull)
    assert load_config() == {}
    with pytest.raises(InputError, match="is a folder, not a configuration file"):
        load_config(tmp_path)


def test_a_file_that_is_not_text(tmp_path):
    file = tmp_path / "config.toml"
    file.write_bytes(b"\xff\xfe\x00u")
    with pytest.raises(InputError, match="is not UTF-8 text"):
        load_config(file)


@pytest.mark.skipif(not os.path.exists("/dev/zero"), reason="no such device here")
def test_a_device_without_end_is_no_configuration():
    with pytest.raises(InputError, match="is larger than 20 MB"):
        load_config(Path("/dev/zero"))


def test_a_link_that_leads_nowhere_is_told(monkeypatch, tmp_path):
    monkeypatch.delenv("WOODREF_CONFIG", raising=False)
    link = tmp_path / "config.toml"
    link.symlink_to(tmp_path / "gone.toml")
    monkeypatch.setattr("woodref.config.config_path", lambda: link)
    with pytest.raises(InputError, match="there is no such configuration file"):
        load_config()
