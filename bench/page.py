"""What bench/run.py and bench/include_cost.py share: the machine, and pages that are half prose."""

import datetime
import os
import pathlib
import platform
import subprocess

ROOT = pathlib.Path(__file__).resolve().parent.parent
BEGIN = "<!-- measured: what stands from here to the end mark is written by {} -->"
END = "<!-- end of measured -->"


def first_line(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout.split("\n")[0]


def processor():
    try:
        text = pathlib.Path("/proc/cpuinfo").read_text()
        return next(line.split(":")[1].strip() for line in text.splitlines() if "model name" in line)
    except (OSError, StopIteration):
        return platform.processor() or platform.machine()


def machine(compiler, flags):
    load = "".join(f"{x:.1f} " for x in os.getloadavg()).strip()
    return (f"{datetime.date.today()}. "
            f"{processor()}, {os.cpu_count()} processors, {platform.system()} {platform.machine()}. "
            f"{first_line(compiler, '--version')}, `{flags}`. Load averages at the end: {load}.")


def write(page, script, text):
    """Puts `text` between the marks of the page and keeps the prose around them."""
    begin = BEGIN.format(script)
    old = page.read_text() if page.exists() else f"# \n\n{begin}\n{END}\n"
    before, rest = old.split(begin)
    after = rest.split(END)[1]
    page.write_text(f"{before}{begin}\n\n{text.strip()}\n\n{END}{after}")
