"""Whether a squad sheet in HTML is whole, harmless and says what the CSV says.

  check_html.py SQUAD_SHEET

The log below is invented; one lifter's name is what an attacker would type.
"""
import csv
import html.parser
import io
import subprocess
import sys
import tempfile

HOSTILE = '=1+1</h2><script>alert(1)</script>&"x'
DATES = ["2026-11-09", "2026-11-12", "2026-11-16", "2026-11-19"]
VOID = {"meta", "br", "input", "link", "img"}


class Reader(html.parser.HTMLParser):
    """Keeps the text, the tags and the ids, and whether every tag is closed in its place."""

    def __init__(self):
        super().__init__()
        self.open, self.tags, self.ids, self.text, self.wrong = [], [], [], [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        for name, value in attrs:
            if name == "id":
                self.ids.append(value)
            if name in ("src", "href") or name.startswith("on"):
                self.wrong.append(f"{tag} {name}={value}")
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append(tag)

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.wrong.append("</" + tag + "> out of place")

    def handle_data(self, data):
        self.text.append(data)


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
    problems = list(reader.wrong) + reader.open
    if "script" in reader.tags:
        problems.append("a name became a script")
    if len(set(reader.ids)) != len(reader.ids):
        problems.append("an id twice")
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
    if reader.tags.count("svg") != 4 or "qualified coach" not in text:
        problems.append("a drawing or the cautions are missing")
    if problems:
        sys.exit("\n".join(problems) + "\n" + page)
    print("one page, nothing from elsewhere, the loads of the table")


main()
