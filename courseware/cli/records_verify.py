"""``courseware records verify``: recompute everything the records hold, or answer for one certificate."""

from datetime import UTC, datetime
from pathlib import Path

import click

from courseware.cli.declare import declared
from courseware.cli.options import COMPANY
from courseware.content.words import say
from courseware.jobs.verify import certificate_status, verify_records


@declared("records-verify")
@click.option(
    "--head", type=click.Path(path_type=Path), metavar=say("cli.a-file"), help=say("cli.records-verify-option-head")
)
@click.option("--certificate", metavar=say("cli.a-code"), help=say("cli.records-verify-option-certificate"))
@COMPANY
def command(head: Path | None, certificate: str | None, folder: Path) -> None:
    """Verify the records."""
    finding = verify_records(folder, head)
    click.echo(finding.report(), err=not finding.ok)
    good = finding.ok
    if certificate:
        status, basis = certificate_status(folder, certificate, datetime.now(UTC).astimezone().date())
        for line in (status.message, *basis):
            click.echo(line, err=status.status != "valid")
        good = good and status.status == "valid"
    if not good:
        click.get_current_context().exit(1)
