"""What a page of HTML must have for everybody to read it, as far as its text can tell.

Success criteria of the Web Content Accessibility Guidelines 2.2 of the W3C (read): language (3.1.1),
title (2.4.2), zoom (1.4.4), headings, tables and groups of fields (1.3.1), names of drawings and controls (1.1.1,
4.1.2), order of focus (2.4.3), contrast (1.4.3). How large text must be shown is a habit of this
project: 12 pixels on a phone.
SPDX-License-Identifier: BSL-1.0
"""
import html.parser
import re

VOID = {"meta", "br", "input", "link", "img", "hr"}
PHONE = 358  # pixels between the margins
LEAST_SHOWN = 12
CONTROLS = {"input", "select", "textarea", "button"}


def luminance(colour):
    digits = colour.lstrip("#")
    digits = "".join(2 * d for d in digits) if len(digits) == 3 else digits
    parts = [int(digits[i:i + 2], 16) / 255 for i in (0, 2, 4)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(a, b):
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


class Page(html.parser.HTMLParser):
    """Reads a page and keeps what is wrong with it."""

    def __init__(self, papers):
        super().__init__()
        self.papers = papers
        self.wrong, self.open, self.heading, self.h1 = [], [], 0, 0
        self.title, self.viewport, self.ids, self.labels = "", False, [], set()
        self.controls, self.labelled_by, self.svg, self.table = [], [], None, None
        self.legends = []

    def handle_starttag(self, tag, attrs):
        have = dict(attrs)
        self.start(tag, have)
        if tag not in VOID:
            self.open.append((tag, have))

    def handle_startendtag(self, tag, attrs):
        self.start(tag, dict(attrs))

    def start(self, tag, have):
        if tag == "html" and not have.get("lang"):
            self.wrong.append("no language")
        if tag == "meta" and have.get("name") == "viewport":
            self.viewport = True
            if re.search("maximum-scale|user-scalable", have.get("content", "")):
                self.wrong.append("zooming is held back")
        if "id" in have:
            self.ids.append(have["id"])
        if int(have.get("tabindex") or 0) > 0:
            self.wrong.append(f"{tag} comes out of its order")
        self.labelled_by += (have.get("aria-labelledby") or "").split()
        if re.fullmatch("h[1-6]", tag):
            level = int(tag[1])
            self.h1 += level == 1
            if level > self.heading + 1:
                self.wrong.append(f"a heading {level} follows a heading {self.heading}")
            self.heading = level
        if tag == "fieldset":
            self.legends.append(False)
        if tag == "legend" and self.legends:
            self.legends[-1] = True
        if have.get("role") == "group" and not (have.get("aria-label") or have.get("aria-labelledby")):
            self.wrong.append("a group of fields without a name")
        if tag == "label":
            self.labels.add(have.get("for"))
        if tag in CONTROLS and have.get("type") not in ("hidden", "submit"):
            wrapped = any(each == "label" for each, _ in self.open)
            named = wrapped or have.get("aria-label") or have.get("aria-labelledby") or tag == "button"
            self.controls.append((tag, have.get("id"), bool(named)))
        if tag == "img" and "alt" not in have:
            self.wrong.append("a picture without a text")
        if tag == "table":
            self.table = {"caption": False, "head": 0}
        if tag == "caption" and self.table:
            self.table["caption"] = True
        if tag == "th":
            self.table["head"] += 1
            if have.get("scope") not in ("col", "row"):
                self.wrong.append("a head of a table without its scope")
        if tag == "svg":
            box = [float(each) for each in have.get("viewbox", "0 0 300 150").split()]
            self.svg = {"wide": box[2], "shapes": [], "title": bool(have.get("aria-label"))}
            if have.get("role") != "img":
                self.wrong.append("a drawing is no picture for a screen reader")
        if self.svg and tag == "title":
            self.svg["title"] = True
        if self.svg and tag == "rect":
            x, y, wide, high = (float(have.get(name, 0)) for name in ("x", "y", "width", "height"))
            self.svg["shapes"].append((x, y, x + wide, y + high, have["fill"]))
        if self.svg and tag == "text":
            self.drawn_text(have)

    def drawn_text(self, have):
        size = float(have["font-size"])
        shown = size * min(PHONE / self.svg["wide"], 1.0)
        if shown < LEAST_SHOWN:
            self.wrong.append(f"text in a drawing is shown {shown:.1f} pixels high")
        if "x" not in have:
            return
        x, y = float(have["x"]), float(have["y"]) - 0.3 * size
        under = ["#ffffff"] + [fill for left, top, right, bottom, fill in self.svg["shapes"]
                               if left <= x <= right and top <= y <= bottom]
        if contrast(have["fill"], under[-1]) < 4.5:
            self.wrong.append(f"text {have['fill']} on {under[-1]}")

    def handle_endtag(self, tag):
        if not self.open or self.open.pop()[0] != tag:
            self.wrong.append("</" + tag + "> out of place")
        if tag == "fieldset" and not (self.legends and self.legends.pop()):
            self.wrong.append("fields without a legend")
        if tag == "table":
            if not self.table["caption"] or not self.table["head"]:
                self.wrong.append("a table without a caption or heads")
            self.table = None
        if tag == "svg":
            if not self.svg["title"]:
                self.wrong.append("a drawing without a title")
            self.svg = None

    def handle_data(self, data):
        if self.open and self.open[-1][0] == "title" and not self.svg:
            self.title += data
        if self.open and self.open[-1][0] == "style":
            self.style(data)

    def style(self, css):
        for rule in re.findall(r"\{([^{}]*)\}", css):
            ink = re.search(r"(?<![-\w])color: *(#[0-9a-f]+)", rule)
            paper = re.search(r"background(?:-color)?: *(#[0-9a-f]+)", rule)
            under = [paper[1]] if paper else self.papers
            if ink and min(contrast(ink[1], each) for each in under) < 4.5:
                self.wrong.append("too little contrast: " + rule.strip())
            for size, unit in re.findall(r"font(?:-size)?: *([\d.]+)(rem|px|pt)", rule):
                if float(size) < {"rem": 0.75, "px": 12, "pt": 9}[unit]:
                    self.wrong.append("text too small: " + rule.strip())


def problems(text, papers=("#ffffff",)):
    """What is wrong with a page, whose text may lie on any of these colours; nothing where it will do."""
    page = Page(papers)
    page.feed(text)
    wrong = page.wrong + [f"<{tag}> is not closed" for tag, _ in page.open]
    wrong += [f"{tag} {id or ''} has no label" for tag, id, named in page.controls
              if not named and id not in page.labels]
    wrong += [f"no element is called {name}" for name in page.labelled_by if name not in page.ids]
    if page.h1 != 1:
        wrong.append(f"{page.h1} headings of the first level")
    if len(set(page.ids)) != len(page.ids):
        wrong.append("an id twice")
    if not page.title.strip() or not page.viewport:
        wrong.append("no title, or not made for a phone")
    return wrong
