"""What a joint asks of two pieces: how far from it they are, in mm, for two poses.

A piece lies in coordinates of its own: as seen from outside with 'up' to +y, its outer face at z = 0, the inner at -t.
"""

import numpy as np

ALONG = 0.03  # mm: an edge and a line as long as each other within this begin and end together
ANGLE = 10.0  # mm: an angle counts like an offset on an arm of this length; it is printed to a tenth of a degree


class Pose:
    def __init__(self, turn=None, shift=None):
        self.turn = np.eye(3) if turn is None else turn
        self.shift = np.zeros(3) if shift is None else shift

    def house(self, p):
        return self.turn @ p + self.shift

    def local(self, p):
        return self.turn.T @ (p - self.shift)

    def moved(self, step):
        """Turned by a small vector about its own axes, and shifted."""
        return Pose(self.turn @ rotation(step[:3] / 50.0), self.shift + step[3:])


def rotation(w):
    angle = np.linalg.norm(w)
    if angle < 1e-15:
        return np.eye(3)
    x, y, z = w / angle
    k = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    return np.eye(3) + np.sin(angle) * k + (1 - np.cos(angle)) * (k @ k)


def at(p, z):
    return np.array([p[0], p[1], z])


def flat_cross(u, v):
    return u[0] * v[1] - u[1] * v[0]


class Stands:
    """An edge of one piece stands at a line on the face of another, the gap away from it."""

    def __init__(self, edge_piece, edge, face_piece, line, deep, high, other, usual=None):
        self.usual = usual
        self.first, self.second = face_piece, edge_piece
        self.edge = [at(p, deep) for p in edge]
        along = np.subtract(edge[1], edge[0]) / np.linalg.norm(np.subtract(edge[1], edge[0]))
        # Points of the piece behind its edge, and on the other face of it: rings run counter-clockwise.
        middle = np.mean(edge, axis=0)
        self.behind = [at(middle + np.array([-along[1], along[0]]), deep), at(middle, other)]
        self.line, self.high = [np.array(p) for p in line], high
        size = lambda s: np.linalg.norm(np.subtract(s[1], s[0]))
        self.ends = abs(size(edge) - size(line)) < ALONG

    def start(self):
        return [at(p, self.high) for p in self.line], self.edge

    def angle(self, face, edge):
        """Degrees between the piece with the edge and the face, on the inner side of the former."""
        along = edge.turn @ (self.edge[1] - self.edge[0])
        along /= np.linalg.norm(along)
        into, inner = np.cross(edge.turn[:, 2], along), -edge.turn[:, 2]
        way = np.cross(face.turn[:, 2], along)
        way = way if way @ inner > 0 else -way
        return np.degrees(np.arccos(np.clip(into @ way, -1, 1)))

    def is_wrong(self, face, edge):
        """Lines are at the outer faces of walls and the lower faces of roofs, unless the other face touches first."""
        return self.overlaps(face, edge) or (self.usual is not None and self.usual.touches_first(face, edge))

    def touches_first(self, face, edge):
        """Whether the other face of the piece is not nearer to the one that it stands at."""
        here, there = (face.local(edge.house(p))[2] for p in (self.edge[0] / 2 + self.edge[1] / 2, self.behind[1]))
        return np.sign(self.high) * (there - here) > -0.1

    def overlaps(self, face, edge):
        """Whether the piece with the edge would reach into the other one."""
        side = np.sign(self.high)
        return any(side * (face.local(edge.house(p))[2] - self.high) < -0.1 for p in self.behind)

    def off(self, face, edge):
        a, b = (face.local(edge.house(p)) for p in self.edge)
        along = (b - a)[:2]
        along = along / max(np.linalg.norm(along), 1e-9)
        found = [a[2] - self.high, b[2] - self.high]
        found += [flat_cross(along, p - a[:2]) for p in self.line]
        if self.ends:
            found.append(along @ ((a + b)[:2] - self.line[0] - self.line[1]) / 2)
        return np.array(found)


def inward(pose, edge):
    """From an edge into its piece, in the house."""
    along = np.append(np.subtract(edge[1], edge[0])[:2], 0.0)
    return pose.turn @ np.cross([0.0, 0.0, 1.0], along / np.linalg.norm(along))


class EdgeToEdge:
    def is_wrong(self, one, two):
        return False

    def angle(self, one, two):
        """Degrees between both pieces, on their inner side."""
        u, v = inward(one, self.edge), inward(two, self.other)
        degrees = np.degrees(np.arccos(np.clip(u @ v, -1, 1)))
        return degrees if v @ one.turn[:, 2] < 1e-9 else 360 - degrees


class Corner(EdgeToEdge):
    """Two edges meet at a corner, flush outside; the first piece runs through, the second ends the gap before it."""

    def __init__(self, first, edge, second, other, thick, gap):
        self.first, self.second = first, second
        self.edge, self.other, self.gap = [np.array(p) for p in edge], [np.array(p) for p in other], gap
        self.thick = thick
        size = lambda s: np.linalg.norm(s[1] - s[0])
        self.ends = abs(size(self.edge) - size(self.other)) < ALONG

    def start(self):
        return [at(p, 0.0) for p in self.edge], [at(p, 0.0) for p in self.other]

    def off(self, one, two):
        outer = [two.local(one.house(at(p, 0.0))) for p in self.edge]
        inner = [two.local(one.house(at(p, -self.thick[0]))) for p in self.edge]
        a, b = self.other
        along = (b - a) / np.linalg.norm(b - a)
        # Rings run counter-clockwise, so what lies on the right of an edge is beyond it.
        past = [-flat_cross(along, p[:2] - a) for p in inner]
        depths = [[one.local(two.house(at(p, z)))[2] for z in (0.0, -self.thick[1])] for p in self.other]
        below = [-self.thick[0] - max(d) for d in depths]
        found = [p[2] for p in outer]
        found += [max(x, y) - self.gap for x, y in zip(past, sorted(below, reverse=True))]
        if self.ends:
            found.append(along @ (outer[0] + outer[1] - at(a, 0) - at(b, 0))[:2] / 2)
        return np.array(found)


class Fold(EdgeToEdge):
    """Two roof pieces meet along their lower edges, half the gap from the plane that halves the angle."""

    def __init__(self, first, edge, second, other, thick, gap):
        self.first, self.second, self.gap = first, second, gap
        self.edge = [at(p, -thick[0]) for p in edge]
        self.other = [at(p, -thick[1]) for p in other]
        size = lambda s: np.linalg.norm(s[1] - s[0])
        self.ends = abs(size(self.edge) - size(self.other)) < ALONG

    def start(self):
        return self.edge, self.other

    def off(self, one, two):
        a, b = (one.house(p) for p in self.edge)
        c, d = (two.house(p) for p in self.other)
        e = (b - a) / np.linalg.norm(b - a)
        way = inward(two, self.other) - inward(one, self.edge)
        way = way - e * (way @ e)
        way = way / max(np.linalg.norm(way), 1e-9)
        x = np.cross(e, way)
        found = []
        for q in (c, d):
            v = q - a
            v = v - e * (v @ e)
            found += [v @ way - self.gap, v @ x]
        if self.ends:
            found.append((c + d - a - b) @ e / 2)
        return np.array(found)


class Angle:
    """The angle of a joint as the table has it."""

    def __init__(self, reading, degrees):
        self.first, self.second = reading.first, reading.second
        self.reading, self.degrees = reading, degrees

    def off(self, one, two):
        return np.array([ANGLE * np.radians(self.reading.angle(one, two) - self.degrees)])
