"""The SDK and its command import what is used, and no more: a request for help does not wait for an HTTP library."""

from __future__ import annotations

import subprocess
import sys

import pytest

import boltwright
from boltwright.command_line import _COMMANDS, main


def imported(*arguments: str) -> set[str]:
    """The modules that a command has imported in a process of its own, ended by a request for help."""
    program = (
        "import sys; from boltwright.command_line import main\n"
        "try: main(sys.argv[1:])\n"
        "except SystemExit: print('\\n' + '\\n'.join(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", program, *arguments], capture_output=True, text=True, check=True)
    return set(done.stdout.splitlines())


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["limit"], []])
def test_help_imports_no_http(arguments: list[str]) -> None:
    assert not imported(*arguments) & {"requests", "sqlite3", "boltwright.client", "boltwright.transport"}


def test_a_command_imports_its_own_module_only() -> None:
    found = imported("limits", "--help")
    assert {name for name in found if name.startswith("boltwright.command_line.")} == {
        "boltwright.command_line.look_ups",
        "boltwright.command_line.specification_text",
    }
    assert not found & {"boltwright.client", "boltwright.part_masters", "boltwright.statistics", "sqlite3"}


@pytest.mark.parametrize("command", _COMMANDS)
def test_every_command_is_where_the_list_says(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main([command, "--help"])
    assert stopped.value.code == 0
    assert capsys.readouterr().out.startswith(f"usage: boltwright {command} ")


def test_help_lists_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    said = " ".join(capsys.readouterr().out.split())
    assert all(f" {name} {help} " in f"{said} " for name, (_, help) in _COMMANDS.items())


@pytest.mark.parametrize("name", boltwright.__all__)
def test_every_name_is_where_the_package_says(name: str) -> None:
    found = getattr(boltwright, name)
    assert getattr(found, "__name__", name) == name
    assert name in dir(boltwright)


def test_a_name_that_there_is_not() -> None:
    with pytest.raises(AttributeError, match="no attribute 'Boltt'"):
        boltwright.Boltt  # noqa: B018
