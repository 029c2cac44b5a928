"""Chains: what a drawing's lines come down to, whatever entity they were written as. Lengths in mm."""
import math
from dataclasses import dataclass


@dataclass
class Chain:
    """Vertices (x, y, bulge), the bulge belonging to the piece that leaves the vertex; or one circle (x, y, radius)."""
    layer: str
    closed: bool
    vertices: list
    circle: tuple | None = None

    def pieces(self):
        """(start, end, bulge) of every piece; none for a circle."""
        following = self.vertices[1:] + (self.vertices[:1] if self.closed else [])
        return [(a[:2], b[:2], a[2]) for a, b in zip(self.vertices, following)]

    def numbers(self):
        return list(self.circle or ()) + [n for vertex in self.vertices for n in vertex]

    def flat(self, chord_error=0.0005):
        """Points along it, arcs cut into chords that stand off by no more than chord_error."""
        if self.circle:
            x, y, radius = self.circle
            return turn((x, y), radius, 0.0, 2 * math.pi, chord_error)[:-1]
        points = []
        for start, end, bulge in self.pieces():
            points += along(start, end, bulge, chord_error)[:-1]
        return points if self.closed else points + [self.vertices[-1][:2]]

    def key(self):
        """Equal for two chains that lie on one another, whatever their start and way round."""
        if self.circle:
            return ("circle", *(round(n, 4) for n in self.circle))
        pieces = []
        for start, end, bulge in self.pieces():
            a, b = (tuple(round(n, 4) for n in p) for p in (start, end))
            pieces.append((a, b, round(bulge, 6)) if a <= b else (b, a, round(-bulge, 6)))
        return tuple(sorted(pieces))


def turn(centre, radius, start, sweep, chord_error):
    """Points on an arc, both ends among them."""
    step = 2 * math.acos(1 - min(chord_error / radius, 0.5)) if radius > 0 else math.pi
    count = max(1, math.ceil(abs(sweep) / step))
    angles = (start + sweep * i / count for i in range(count + 1))
    return [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles]


def along(start, end, bulge, chord_error):
    """Points of one piece, both ends among them. A bulge is the tangent of a quarter of the sweep."""
    if abs(bulge) < 1e-12:
        return [start, end]
    half_x, half_y = (end[0] - start[0]) / 2, (end[1] - start[1]) / 2
    shift = (1 - bulge * bulge) / (2 * bulge)
    centre = (start[0] + half_x - half_y * shift, start[1] + half_y + half_x * shift)
    first = math.atan2(start[1] - centre[1], start[0] - centre[0])
    points = turn(centre, math.dist(centre, start), first, 4 * math.atan(bulge), chord_error)
    return [start, *points[1:-1], end]
