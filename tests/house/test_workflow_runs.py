"""The scripts of the workflow, run as the host runs them, in a repository of their own."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from tests.commands.shelf import SPEC, elevation_sheet

ROOT = Path(__file__).resolve().parents[2]
WORKFLOW = ROOT / ".github" / "workflows" / "sheets.yml"

pytestmark = pytest.mark.skipif(os.name != "posix", reason="the host's scripts are for bash")


def script(name: str) -> str:
    """The script of a step of the workflow, by the step's name."""
    jobs = yaml.safe_load(WORKFLOW.read_text("utf-8"))["jobs"].values()
    (found,) = [step["run"] for job in jobs for step in job["steps"] if step.get("name") == name]
    return str(found)


def git(*words: str, at: Path) -> None:
    who = ["-c", "user.name=RV", "-c", "user.email=rv@example.invalid"]
    subprocess.run(["git", *who, *words], cwd=at, check=True, capture_output=True)


class Host:
    """A repository of three specs and a title block, with committed sheets; the second commit changes one
    spec, renames one, adds one, and leaves a set without its spec.
    """

    def __init__(self, home: Path) -> None:
        self.home, self.summary = home / "a repository", home / "summary.md"
        self.summary.write_text("", "utf-8")
        tools = home / "tools"
        tools.mkdir()
        program = tools / "shopset"
        program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m sheets "$@"\n', "utf-8")
        program.chmod(program.stat().st_mode | stat.S_IXUSR)
        self.environment = {
            **os.environ, "PYTHONPATH": str(ROOT), "PATH": f"{tools}{os.pathsep}{os.environ['PATH']}",
            "GITHUB_STEP_SUMMARY": str(self.summary), "SPECS": "specs/*.yaml", "FOLDER": "sheets",
            "BASE": "HEAD~1", "SHARD": "1/1", "GITHUB_OUTPUT": str(home / "output.txt"),
        }  # fmt: skip

    def run(self, step: str, **more: str) -> subprocess.CompletedProcess[str]:
        # Without `shell:` a step runs as `bash -e` there (the host's workflow syntax, `jobs.<id>.steps`).
        return subprocess.run(
            ["bash", "-e", "-c", script(step)], cwd=self.home, env=self.environment | more,
            capture_output=True, text=True, check=False,
        )  # fmt: skip


@pytest.fixture(scope="module")
def host(tmp_path_factory: pytest.TempPathFactory) -> Host:
    found = Host(tmp_path_factory.mktemp("host"))
    specs = found.home / "specs"
    specs.mkdir(parents=True)
    (specs / "hall.yaml").write_text(SPEC, "utf-8")
    (specs / "den.yaml").write_text(SPEC.replace("Hall", "Den"), "utf-8")
    (specs / "loft.yaml").write_text(SPEC.replace("Hall", "Loft"), "utf-8")
    (specs / "block.yaml").write_bytes((ROOT / "titleblocks" / "shop-small.yaml").read_bytes())
    git("init", "-q", at=found.home)
    (found.home / ".gitignore").write_text("/out/\n/changes/\n/.drawn/\n", "utf-8")
    done = found.run("Draw every spec")
    assert done.returncode == 0, done.stderr
    (found.home / "out").rename(found.home / "sheets")
    git("add", ".", at=found.home)
    git("commit", "-q", "-m", "first", at=found.home)
    (specs / "hall.yaml").write_text(SPEC.replace("count: 1", "count: 2"), "utf-8")
    (specs / "attic.yaml").write_text(SPEC.replace("Hall", "Attic"), "utf-8")
    git("mv", "specs/loft.yaml", "specs/garret.yaml", at=found.home)
    git("add", ".", at=found.home)
    git("commit", "-q", "-m", "another shelf", at=found.home)
    return found


def test_sheets_that_are_behind_their_spec_fail_the_run_and_are_named(host: Host) -> None:
    done = host.run("Hold the kept sheets against their specs")
    assert done.returncode == 1
    changed = elevation_sheet(host.home / "sheets" / "hall")
    assert f"sheet {changed} " in done.stdout
    assert "den.yaml: sheets/den is what the spec gives" in done.stdout
    assert "attic" in done.stdout
    assert "note: specs/block.yaml: is a title block, no spec; it is skipped" in done.stderr
    assert "sheets/loft: was drawn from loft.yaml, and there is no such spec in specs" in done.stdout
    assert done.stdout.splitlines()[-1] == (
        "4 specs: 3 differ, 1 as drawn, 0 failed; 1 set without a spec"
    ), done.stdout
    assert not (host.home / "sheets" / "attic").exists(), "a check writes nothing"


def test_the_summary_lists_the_changes_and_pictures_are_kept(host: Host) -> None:
    host.summary.write_text("", "utf-8")
    done = host.run("List the changes")
    assert done.returncode == 0, done.stderr
    said = host.summary.read_text("utf-8")
    assert said == (host.home / "changes" / "summary.md").read_text("utf-8")
    by_spec = dict(part.split("\n", 1) for part in said.split("\n## ")[1:])
    assert set(by_spec) == {"attic", "den", "garret", "hall"}
    assert by_spec["garret"].startswith("Renamed: was specs/loft.yaml.\n")
    assert "Nothing that is built has changed." in by_spec["garret"]
    assert "New: there was no such spec before." in by_spec["attic"]
    assert "Nothing that is built has changed." in by_spec["den"]
    assert "added: " in by_spec["hall"]
    assert "Shelf" in by_spec["hall"]
    assert said.count("```") % 2 == 0, "every block of text is closed"
    kept = host.home / "changes" / "hall"
    changed = elevation_sheet(host.home / "sheets" / "hall")
    assert (kept / f"hall-{changed}.png").read_bytes().startswith(b"\x89PNG")
    assert (kept / "changes.pdf").read_bytes().startswith(b"%PDF")
    assert not list((host.home / "changes" / "den").glob("*.png")), (
        "no picture of a sheet that did not change"
    )


def test_a_base_that_is_not_there_and_a_spec_that_is_wrong_leave_a_summary(host: Host) -> None:
    host.summary.write_text("", "utf-8")
    # What the host gives for the first push of a branch.
    assert host.run("List the changes", BASE="0" * 40).returncode == 0
    assert host.summary.read_text("utf-8").count("New: there was no such spec before.") == 4
    spec = host.home / "specs" / "hall.yaml"
    kept = spec.read_text("utf-8")
    for name in ("den.yaml", "attic.yaml"):  # both: git would take the new one for the old one renamed
        (host.home / "specs" / name).rename(host.home / name)
    spec.write_text(kept.replace("height: 60", "heigth: 60"), "utf-8")
    host.summary.write_text("", "utf-8")
    done = host.run("List the changes")
    spec.write_text(kept, "utf-8")
    for name in ("den.yaml", "attic.yaml"):
        (host.home / name).rename(host.home / "specs" / name)
    assert done.returncode == 0
    said = host.summary.read_text("utf-8")
    assert "Did you mean height?" in said
    assert "## den\nRemoved: there is no such spec any more." in said


def test_one_bad_spec_leaves_the_others_drawn_held_and_counted(host: Host) -> None:
    spec = host.home / "specs" / "attic.yaml"
    kept = spec.read_text("utf-8")
    spec.write_text(kept.replace("height: 60", "heigth: 60"), "utf-8")
    drawn = host.run("Draw every spec")
    checked = host.run("Hold the kept sheets against their specs")
    spec.write_text(kept, "utf-8")
    assert (drawn.returncode, checked.returncode) == (2, 2)
    assert "specs/attic.yaml:18:5: error" in drawn.stderr
    assert drawn.stdout.splitlines()[-1] == "4 specs: 3 drawn, 0 unchanged, 1 failed (specs/attic.yaml)"
    assert "1 as drawn, 1 failed (specs/attic.yaml)" in checked.stdout
    again = host.run("Draw every spec")
    assert again.stdout.splitlines()[-1] == "4 specs: 1 drawn, 3 unchanged, 0 failed"


def test_the_specs_are_shared_from_a_number_on(host: Host, tmp_path: Path) -> None:
    specs = tmp_path / "specs"
    specs.mkdir()
    for count, shards in ((1, ["1/1"]), (40, ["1/1"]), (41, ["1/2", "2/2"])):
        for k in range(count):
            (specs / f"{k}.yaml").touch()
        output = tmp_path / "output.txt"
        output.write_text("", "utf-8")
        host.run("Count the specs", SPECS=f"{specs}/*.yaml", GITHUB_OUTPUT=str(output))
        name, _, value = output.read_text("utf-8").strip().partition("=")
        assert (name, yaml.safe_load(value)) == ("shards", shards)


def test_the_workflow_is_laid_out_as_the_host_reads_it() -> None:
    content = yaml.load(WORKFLOW.read_text("utf-8"), Loader=yaml.BaseLoader)
    assert {"pull_request", "push", "workflow_call"} <= content["on"].keys()
    assert content["permissions"] == {"contents": "read"}
    steps = content["jobs"]["sheets"]["steps"]
    assert all(("run" in step) != ("uses" in step) for step in steps)
    (checkout,) = [step for step in steps if step.get("uses", "").startswith("actions/checkout@")]
    assert checkout["with"]["fetch-depth"] == "0", "the commit before is compared with"
    kept = [step["with"] for step in steps if "upload-artifact" in step.get("uses", "")]
    uploads = {one["name"]: one["path"] for one in kept}
    assert uploads["changed-sheets${{ env.PART }}"] == "changes"
    names = [step.get("name", "") for step in steps]
    assert names.index("Keep the pictures of changed sheets") > names.index("List the changes")
    always = [step for step in steps if step.get("if", "").startswith("always()")]
    wanted = {
        "Hold the kept sheets against their specs", "List the changes", "Keep the pictures of changed sheets",
    }  # fmt: skip
    assert wanted <= {step.get("name") for step in always}
    assert "actions/cache/save@v4" in {step.get("uses") for step in always}
