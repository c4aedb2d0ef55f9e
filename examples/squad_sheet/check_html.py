"""Whether a squad sheet in HTML is whole, harmless, for everybody to read, and says what the CSV says.

  check_html.py SQUAD_SHEET

The log below is invented; one lifter's name is what an attacker would type.
"""
import csv
import html.parser
import io
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[2] / "tests"))
import accessibility  # noqa: E402

HOSTILE = '=1+1</h2><script>alert(1)</script>&"x'
DATES = ["2026-11-09", "2026-11-12", "2026-11-16", "2026-11-19"]
WIDTHS = {"phone": 360, "tablet": 820, "screen": 1400}


class Reader(html.parser.HTMLParser):
    """Keeps the text and the tags, and what would be fetched or run."""

    def __init__(self):
        super().__init__()
        self.tags, self.text, self.wrong = [], [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        for name, value in attrs:
            if name in ("src", "href") or name.startswith("on"):
                self.wrong.append(f"{tag} {name}={value}")

    def handle_data(self, data):
        self.text.append(data.replace("\u00a0", " "))


def too_wide(page):
    """Where a page must be moved sideways to be read, in headless Chromium; and on how much paper it is."""
    browser = shutil.which("chromium") or shutil.which("chromium-browser")
    if browser is None:
        print("left out: no chromium")
        return []
    wrong = []
    with tempfile.TemporaryDirectory() as work:
        # A frame has the width that a window without a screen may not have.
        frames = "".join(f'<iframe id="{name}" width="{wide}" height="900" src="sheet.html"></iframe>'
                         for name, wide in WIDTHS.items())
        script = ("onload = () => { for (const f of document.querySelectorAll('iframe')) { const e = "
                  "f.contentDocument.documentElement; f.title = e.scrollWidth - e.clientWidth; } }")
        pathlib.Path(work, "sheet.html").write_text(page, encoding="utf-8")
        pathlib.Path(work, "frames.html").write_text(f"<body>{frames}<script>{script}</script>")
        options = [browser, "--headless", "--no-sandbox", "--disable-gpu", "--allow-file-access-from-files",
                   f"--user-data-dir={work}/profile"]
        shown = subprocess.run(options + ["--virtual-time-budget=5000", "--dump-dom", f"{work}/frames.html"],
                               capture_output=True, text=True, check=True, timeout=120).stdout
        beyond = dict(re.findall(r'<iframe id="(\w+)"[^>]*title="(-?\d+)"', shown))
        for name in WIDTHS:
            if beyond.get(name) != "0":
                wrong.append(f"on a {name}: {beyond.get(name)} pixels too wide")
        subprocess.run(options + ["--no-pdf-header-footer", f"--print-to-pdf={work}/sheet.pdf", f"{work}/sheet.html"],
                       capture_output=True, check=True, timeout=120)
        pages = len(re.findall(rb"/Type */Page\b", pathlib.Path(work, "sheet.pdf").read_bytes()))
        if pages != 3:  # two lifters, and what to keep in mind
            wrong.append(f"printed on {pages} pages")
    return wrong


def sheet(program, log, form):
    return subprocess.run(
        [program, log, "--lift", "bench press", "--lift", "squat", "--date", "2026-11-23",
         "--spotter", "--safeties", "checked", "--as", form],
        capture_output=True, text=True, check=True).stdout


def main():
    rows = ["date,lifter,lift,load,unit,reps,rir"]
    for name, load in (("Sanna Wirén", 60), (HOSTILE, 80)):
        quoted = '"' + name.replace('"', '""') + '"'
        for date in DATES:
            rows += [f"{date},{quoted},{lift},{load},kg,6,2" for lift in ("bench press", "squat")]
    with tempfile.NamedTemporaryFile("w", suffix=".csv", encoding="utf-8") as log:
        log.write("\n".join(rows) + "\n")
        log.flush()
        page, table = sheet(sys.argv[1], log.name, "html"), sheet(sys.argv[1], log.name, "csv")

    reader = Reader()
    reader.feed(page)
    text = "".join(reader.text)
    lines = list(csv.DictReader(io.StringIO(table)))
    problems = reader.wrong + accessibility.problems(page) + too_wide(page)
    if "script" in reader.tags:
        problems.append("a name became a script")
    if HOSTILE not in text or "Sanna Wirén" not in text:
        problems.append("a name is not shown as it is")
    if any(line["lifter"].startswith("=") for line in lines):
        problems.append("a name in the table is a formula")
    work = [line for line in lines if line["what"] == "work"]
    if len(work) != 4:
        problems.append(f"expected 4 sessions, got {len(work)}")
    for line in work:
        wanted = f"{line['sets']} x {line['reps']} with {line['load']} {line['unit']}"
        if wanted not in text:
            problems.append("not on the page: " + wanted)
    if reader.tags.count("svg") != 8 or "qualified coach" not in text:
        problems.append("a bar, a chart or the cautions are missing")
    if problems:
        sys.exit("\n".join(problems) + "\n" + page)
    print("one page, nothing from elsewhere, the loads of the table, readable by all")


main()
