"""A DXF file as bare tags: what a forgiving reader mends in silence and a strict one throws out. No library is used."""
import re
from collections import Counter

POINTERS = {*range(320, 370), *range(390, 400), 480, 481, 1005}
SECTIONS_R12 = ["HEADER", "TABLES", "ENTITIES"]
SECTIONS = ["HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"]
TABLES = ["VPORT", "LTYPE", "LAYER", "STYLE", "VIEW", "UCS", "APPID", "DIMSTYLE", "BLOCK_RECORD"]
LATER_THAN_R12 = {"LWPOLYLINE", "SPLINE", "ELLIPSE", "HATCH", "MTEXT"}
FRAME = {"SECTION", "ENDSEC", "EOF", "ENDTAB", "CLASS"}
NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)")


def faults(path):
    """Everything wrong with the tags; a fault that recurs is given once with its count."""
    with open(path, "rb") as file:
        raw = file.read()
    try:
        found = line_faults(raw) + Tags(split(raw)).faults()
    except ValueError as error:
        found = [f"not a file of tags: {error}"]
    return [what if count == 1 else f"{what} ({count} times)" for what, count in Counter(found).items()]


def line_faults(raw):
    found = []
    if raw.count(b"\n") != raw.count(b"\r\n"):
        found.append("a line does not end in CR LF")
    if raw.split()[-1:] != [b"EOF"]:
        found.append("does not end in EOF")
    return found


def split(raw):
    lines = raw.decode("utf-8").replace("\r\n", "\n").removesuffix("\n").split("\n")
    if len(lines) % 2:
        raise ValueError("an odd number of lines")
    return [(int(code), value) for code, value in zip(lines[::2], lines[1::2])]


class Record:
    """One entity, table entry or object: its tags, and the section it stands in."""

    def __init__(self, kind, section):
        self.kind, self.section, self.tags = kind, section, []

    def values(self, code):
        return [value for c, value in self.tags if c == code]


class Tags:
    def __init__(self, tags):
        self.tags, self.records, section = tags, [], ""
        for i, (code, value) in enumerate(tags):
            if code == 0:
                if value == "SECTION" and i + 1 < len(tags):
                    section = tags[i + 1][1]
                self.records.append(Record(value, section))
            elif self.records:
                self.records[-1].tags.append((code, value))
        self.r12 = (self.variable("$ACADVER") or "AC1009") <= "AC1009"
        self.body = [r for r in self.records if r.kind not in FRAME and r.section != "HEADER"]

    def variable(self, name):
        at = next((i for i, tag in enumerate(self.tags[:-1]) if tag == (9, name)), None)
        return None if at is None else self.tags[at + 1][1]

    def faults(self):
        found = self.parts() + self.handles() + self.layers() + self.numbers() + self.vertices()
        return found + (self.only_r12() if self.r12 else self.since_r13())

    def parts(self):
        def named(kind):
            return {name for r in self.records if r.kind == kind for name in r.values(2)[:1]}
        sections = [n for n in (SECTIONS_R12 if self.r12 else SECTIONS) if n not in named("SECTION")]
        tables = [] if self.r12 else [n for n in TABLES if n not in named("TABLE")]
        return [f"no section {n}" for n in sections] + [f"no table {n}" for n in tables]

    def handle(self, record):
        if record.kind == "DIMSTYLE":
            return None if self.r12 else next(iter(record.values(105)), None)
        return next(iter(record.values(5)), None)

    def handles(self):
        held = [h.strip().upper() for r in self.body if (h := self.handle(r)) is not None]
        found = [f"handle {h} is given {n} times" for h, n in Counter(held).items() if n > 1]
        numbers = [int(h, 16) for h in held]
        if 0 in numbers:
            found.append("a handle is zero")
        seed = self.variable("$HANDSEED")
        if numbers and seed and int(seed, 16) <= max(numbers):
            found.append("$HANDSEED is not above every handle")
        for record in self.records:
            for code, value in record.tags:
                target = value.strip().upper()
                empty = target in ("", "0")
                if code in POINTERS and empty and code != 330:
                    found.append(f"{record.kind}: pointer {code} is empty")
                elif code in POINTERS and not empty and target not in held:
                    found.append(f"{record.kind}: pointer {code} leads nowhere")
        return found

    def layers(self):
        defined = {n.upper() for r in self.body if r.kind == "LAYER" for n in r.values(2)}
        used = [name for r in self.records for name in r.values(8)]
        found = [f"layer {name} is not defined" for name in used if name.upper() not in defined]
        return found + [f"layer {n} is not in capitals" for n in used if self.r12 and n != n.upper()]

    def numbers(self):
        found = []
        for code, value in self.tags:
            text = value.strip()
            if 10 <= code < 60 and not NUMBER.fullmatch(text):
                found.append(f"{code}: {text!r} is not a plain number")
            elif 10 <= code < 60 and text.startswith("-") and float(text) == 0:
                found.append(f"{code}: a minus before nought")
        return found

    def vertices(self):
        found, layer = [], []
        for record in self.body:
            if record.kind == "POLYLINE":
                layer = record.values(8)
            elif record.kind == "VERTEX" and record.values(8) != layer:
                found.append("a vertex is not on the layer of its polyline")
        return found

    def only_r12(self):
        found = [f"{r.kind}: came after R12" for r in self.body if r.kind in LATER_THAN_R12]
        return found + [f"{r.kind}: subclass marker in R12" for r in self.body if r.values(100)]

    def since_r13(self):
        found = []
        for record in self.body:
            if self.handle(record) is None:
                found.append(f"{record.kind}: no handle")
            if not record.values(330):
                found.append(f"{record.kind}: no owner")
            if record.section == "ENTITIES" and not record.values(8):
                found.append(f"{record.kind}: no layer")
            if record.kind != "VPORT" and any(int(v) & 0xFF000000 not in (1 << 24, 2 << 24) for v in record.values(440)):
                found.append(f"{record.kind}: transparency of no known kind")
        blocks = {n.upper() for r in self.body if r.kind == "BLOCK" for n in r.values(2)}
        return found + [f"no block {b}" for b in ("*MODEL_SPACE", "*PAPER_SPACE") if b not in blocks]
