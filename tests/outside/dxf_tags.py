"""A DXF file as bare tags: what forgiving readers mend in silence and strict ones refuse. No library is used."""

R12 = "AC1009"
# What the DXF reference asks of a file, up to R12 and after it.
SECTIONS = {
    True: ("HEADER", "TABLES", "ENTITIES"),
    False: ("HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"),
}
TABLES = {
    True: (),
    False: ("VPORT", "LTYPE", "LAYER", "STYLE", "VIEW", "UCS", "APPID", "DIMSTYLE", "BLOCK_RECORD"),
}
BLOCKS = ("*MODEL_SPACE", "*PAPER_SPACE")
AFTER_R12 = frozenset({"LWPOLYLINE", "SPLINE", "ELLIPSE", "HATCH", "MTEXT"})
NO_HANDLE = frozenset({"SECTION", "ENDSEC", "EOF", "ENDTAB", "CLASS"})
POINTERS = frozenset({*range(320, 370), *range(390, 400), 480, 481, 1005})
OWNER, LAYER, SUBCLASS, TRANSPARENCY = 330, 8, 100, 440
NUMBERS = range(10, 60)


class Record:
    """One record: its kind, its section, its tags (code, value)."""

    def __init__(self, kind, section):
        self.kind, self.section, self.tags = kind, section, []

    def values(self, code):
        return [value for tag, value in self.tags if tag == code]

    def first(self, code):
        return next(iter(self.values(code)), None)


def faults(data):
    """What is wrong with a file's bytes, each sentence once."""
    found = _line_faults(data)
    try:
        tags = _tags(data)
    except ValueError as error:
        return [*found, f"not a list of tags: {error}"]
    records = _records(tags)
    header = {value: tags[i + 1][1] for i, (code, value) in enumerate(tags[:-1]) if code == 9}
    old = header.get("$ACADVER", R12) <= R12
    found += _frame_faults(records, old)
    found += _handle_faults(records, old, header.get("$HANDSEED"))
    found += _layer_faults(records, old)
    found += _number_faults(tags)
    found += [f"{r.kind} in a file of R12" for r in records if old and r.kind in AFTER_R12]
    found += [f"a subclass marker in a file of R12: {r.kind}" for r in records if old and r.values(SUBCLASS)]
    return list(dict.fromkeys(found))


def _line_faults(data):
    found = []
    if data.count(b"\r\n") != data.count(b"\n") or data.count(b"\r\n") != data.count(b"\r"):
        found.append("a line that does not end in CR LF")
    if not data.endswith(b"EOF\r\n"):
        found.append("no EOF at the end")
    return found


def _tags(data):
    lines = data.decode("utf-8").replace("\r\n", "\n").removesuffix("\n").split("\n")
    if len(lines) % 2:
        raise ValueError("an odd count of lines")
    return [(int(code), value) for code, value in zip(lines[::2], lines[1::2])]


def _records(tags):
    records, section = [], None
    for i, (code, value) in enumerate(tags):
        if code != 0:
            if records:
                records[-1].tags.append((code, value))
            continue
        if value == "SECTION":
            section = tags[i + 1][1]
        records.append(Record(value, section))
    return records


def _frame_faults(records, old):
    names = lambda kind: {record.first(2) for record in records if record.kind == kind}
    found = [f"no section {name}" for name in SECTIONS[old] if name not in names("SECTION")]
    found += [f"no table {name}" for name in TABLES[old] if name not in names("TABLE")]
    if not old:
        blocks = {(name or "").upper() for name in names("BLOCK")}
        found += [f"no block {name}" for name in BLOCKS if name not in blocks]
    return found


def _handle_faults(records, old, seed):
    found, handles = [], {}
    bearers = [r for r in records if r.kind not in NO_HANDLE and r.section != "HEADER"]
    for record in bearers:
        # Dimension styles keep 5 for a block's name and their handle in 105.
        handle = record.first(105 if record.kind == "DIMSTYLE" else 5)
        if handle is None:
            if not old:
                found.append(f"no handle: {record.kind}")
        elif int(handle, 16) == 0:
            found.append(f"handle 0: {record.kind}")
        elif int(handle, 16) in handles:
            found.append(f"handle {handle} twice: {record.kind}")
        else:
            handles[int(handle, 16)] = record
        if not old and not record.values(OWNER):
            found.append(f"no owner: {record.kind}")
    if handles and seed and int(seed, 16) <= max(handles):
        found.append("$HANDSEED is not above every handle")
    for record in bearers:
        found += _pointer_faults(record, handles)
    return found


def _pointer_faults(record, handles):
    found = []
    for code, value in record.tags:
        if code in POINTERS:
            target = int(value.strip() or "0", 16)
            if target == 0 and code != OWNER:
                found.append(f"pointer {code} to nothing: {record.kind}")
            elif target and target not in handles:
                found.append(f"pointer {code} to {value}, which is not there: {record.kind}")
        elif code == TRANSPARENCY and int(value) >> 24 not in (1, 2):
            found.append(f"a transparency that says no way to take it: {record.kind}")
    return found


def _layer_faults(records, old):
    found, polyline = [], None
    defined = {r.first(2).upper() for r in records if r.kind == "LAYER" and r.section == "TABLES" and r.first(2)}
    for record in records:
        layer = record.first(LAYER)
        if record.section == "ENTITIES" and record.kind not in NO_HANDLE and layer is None:
            found.append(f"no layer: {record.kind}")
        if layer is None:
            continue
        if layer.upper() not in defined:
            found.append(f"no table defines the layer {layer}")
        if old and layer != layer.upper():
            found.append(f"small letters in the layer {layer} of R12")
        if record.kind == "POLYLINE":
            polyline = layer
        if record.kind in ("VERTEX", "SEQEND") and layer != polyline:
            found.append(f"{record.kind} on another layer than its POLYLINE")
    return found


def _number_faults(tags):
    found = []
    for code, value in tags:
        if code not in NUMBERS:
            continue
        text = value.strip().lower()
        if "e" in text:
            found.append(f"an exponent: {code} {text}")
        elif "n" in text:
            found.append(f"not a number: {code} {text}")
        elif text.startswith("-") and float(text) == 0.0:
            found.append(f"a minus before nothing: {code} {text}")
    return found
