"""Small good files, written by hand, from which the tests make bad ones."""
import logging

import ezdxf

logging.getLogger("ezdxf").setLevel(logging.ERROR)     # it warns of the unit that is added below

# A plate of 100 x 60 at (20, 20) on stock of 140 x 100, 6 thick, cut outside by a bit of 6 in one pass.
PROGRAM = """%
(plate)
G17 G21 G40 G49 G80 G90 G94
T1 M6
S16000 M3
G0 Z10
G0 X20 Y17
G1 Z-6.2 F600
G1 X120 F2000
G3 X123 Y20 I0 J3
G1 Y80
G3 X120 Y83 I-3 J0
G1 X20
G3 X17 Y80 I0 J-3
G1 Y20
G3 X20 Y17 I3 J0
G0 Z10
M5
M30
%
"""

SVG = """<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="140mm" height="100mm" viewBox="0 0 140 100">
<title>plate</title>
<g id="outline" fill="none" stroke="#000000" stroke-width="0.1">
<path d="M 20 20 L 120 20 A 30 30 0 0 1 120 80 L 20 80 Z"/>
</g>
<g id="bore" fill="none" stroke="#0072b2" stroke-width="0.1"><circle cx="50" cy="50" r="4"/></g>
</svg>
"""

CORNERS = [(20, 20), (120, 20), (120, 80), (20, 80)]


def drawing(version="R12", closed=True, layer="OUTLINE", units=4, corners=CORNERS, times=1):
    """A DXF document with one outline, its header filled in."""
    document = ezdxf.new(version, setup=False)
    document.header["$INSUNITS"] = units
    document.layers.add(layer)
    space = document.modelspace()
    for _ in range(times):
        if version == "R12":
            space.add_polyline2d(corners, close=closed, dxfattribs={"layer": layer})
        else:
            space.add_lwpolyline(corners, close=closed, dxfattribs={"layer": layer})
    space.reset_extents((20, 20, 0), (120, 80, 0))
    return document


def save(document, path):
    """Saves with CR LF and plain numbers, and in R12 with the unit, which ezdxf leaves out of the header."""
    document.saveas(path)
    raw = path.read_bytes().replace(b"\r\n", b"\n").replace(b"1e+20", b"1" + b"0" * 20)
    if document.dxfversion == "AC1009":
        raw = raw.replace(b"HEADER\n", b"HEADER\n  9\n$INSUNITS\n 70\n%d\n" % document.units, 1)
    path.write_bytes(raw.replace(b"\n", b"\r\n"))
    return path


def tags(changed=None):
    """A file of R12 tags written by hand: one LINE on MARK. changed: (old, new) pairs."""
    text = "0 SECTION 2 HEADER 9 $ACADVER 1 AC1009 9 $INSUNITS 70 4 0 ENDSEC 0 SECTION 2 TABLES 0 TABLE 2 LAYER 70 1 0 LAYER 2 MARK 70 0 " \
           "62 7 6 CONTINUOUS 0 ENDTAB 0 ENDSEC 0 SECTION 2 ENTITIES 0 LINE 8 MARK 10 0.0 20 0.0 11 5.0 21 0.0 0 ENDSEC 0 EOF"
    raw = "\r\n".join(text.split()) + "\r\n"
    for old, new in changed or []:
        assert old in raw, old
        raw = raw.replace(old, new)
    return raw.encode()
