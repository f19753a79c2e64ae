"""Small plane geometry in mm, on points as (x, y)."""

import math


def sub(a, b):
    return (a[0] - b[0], a[1] - b[1])


def length(v):
    return math.hypot(v[0], v[1])


def bezier(p0, p1, p2, p3, steps=64):
    """Points along a cubic, without its start."""
    points = []
    for k in range(1, steps + 1):
        t = k / steps
        u = 1 - t
        points.append(tuple(u**3 * a + 3 * u * u * t * b + 3 * u * t * t * c + t**3 * d for a, b, c, d in zip(p0, p1, p2, p3)))
    return points


def distance(p, segment):
    """Distance of a point from a straight segment."""
    (ax, ay), (bx, by) = segment
    dx, dy = bx - ax, by - ay
    square = dx * dx + dy * dy
    t = 0.0 if square == 0 else max(0.0, min(1.0, ((p[0] - ax) * dx + (p[1] - ay) * dy) / square))
    return math.hypot(p[0] - ax - t * dx, p[1] - ay - t * dy)


def ring_segments(ring):
    return [(ring[k], ring[(k + 1) % len(ring)]) for k in range(len(ring))]


def samples(segment, step=1.0):
    """Points along a segment, both ends included."""
    a, b = segment
    count = max(1, math.ceil(length(sub(b, a)) / step))
    return [(a[0] + (b[0] - a[0]) * k / count, a[1] + (b[1] - a[1]) * k / count) for k in range(count + 1)]


def merged(segments, near=0.005):
    """Straight segments on one line that overlap or touch, joined to the longest ones there are."""
    lines = []
    for a, b in segments:
        d = sub(b, a)
        size = length(d)
        if size < 1.0:
            continue
        if (d[0], d[1]) < (0, 0) or (abs(d[0]) < 1e-9 and d[1] < 0):
            a, b, d = b, a, sub(a, b)
        u = (d[0] / size, d[1] / size)
        for line in lines:
            base, v, spans = line
            if abs(u[0] * v[1] - u[1] * v[0]) * size < near and distance_to_line(a, base, v) < near:
                spans.append(sorted((along(a, base, v), along(b, base, v))))
                break
        else:
            lines.append((a, u, [[0.0, size]]))
    found = []
    for base, v, spans in lines:
        spans.sort()
        joined = [spans[0]]
        for low, high in spans[1:]:
            if low <= joined[-1][1] + near:
                joined[-1] = [joined[-1][0], max(joined[-1][1], high)]
            else:
                joined.append([low, high])
        at = lambda t: (base[0] + v[0] * t, base[1] + v[1] * t)
        found += [(at(low), at(high)) for low, high in joined]
    return found


def along(p, base, v):
    return (p[0] - base[0]) * v[0] + (p[1] - base[1]) * v[1]


def distance_to_line(p, base, v):
    return abs((p[0] - base[0]) * v[1] - (p[1] - base[1]) * v[0])


def inside(p, ring):
    """Even-odd rule."""
    crossed = 0
    for (ax, ay), (bx, by) in ring_segments(ring):
        if (ay > p[1]) != (by > p[1]) and p[0] < ax + (bx - ax) * (p[1] - ay) / (by - ay):
            crossed += 1
    return crossed % 2 == 1


def overlap(one, other):
    """Whether two convex outlines share an area: no line along a side of either parts them."""
    for ring in (one, other):
        for (ax, ay), (bx, by) in ring_segments(ring):
            side = lambda p: (p[0] - ax) * (by - ay) - (p[1] - ay) * (bx - ax)
            spans = [[side(p) for p in r] for r in (one, other)]
            if min(spans[0]) >= max(spans[1]) or min(spans[1]) >= max(spans[0]):
                return False
    return True


class Motion:
    """Takes the segment a-b onto c-d; mirrors x first if asked."""

    def __init__(self, segment, target, mirror):
        self.mirror = mirror
        a, b = (self.flip(p) for p in segment)
        c, d = target
        turn = math.atan2(d[1] - c[1], d[0] - c[0]) - math.atan2(b[1] - a[1], b[0] - a[0])
        self.cos, self.sin = math.cos(turn), math.sin(turn)
        # Middles onto each other, so that an error of length is shared by both ends.
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        goal = ((c[0] + d[0]) / 2, (c[1] + d[1]) / 2)
        self.shift = sub(goal, self.turned(middle))

    def flip(self, p):
        return (-p[0], p[1]) if self.mirror else tuple(p)

    def turned(self, p):
        return (p[0] * self.cos - p[1] * self.sin, p[0] * self.sin + p[1] * self.cos)

    def __call__(self, p):
        x, y = self.turned(self.flip(p))
        return (x + self.shift[0], y + self.shift[1])


class Cover:
    """Answers how far points are from a set of segments, quickly enough for thousands."""

    CELL = 10.0

    def __init__(self, segments):
        self.cells = {}
        for segment in segments:
            for cell in self.around(segment):
                self.cells.setdefault(cell, []).append(segment)

    def around(self, segment):
        (ax, ay), (bx, by) = segment
        xs = range(math.floor((min(ax, bx) - 1) / self.CELL), math.floor((max(ax, bx) + 1) / self.CELL) + 1)
        ys = range(math.floor((min(ay, by) - 1) / self.CELL), math.floor((max(ay, by) + 1) / self.CELL) + 1)
        return [(x, y) for x in xs for y in ys]

    def off(self, p):
        near = self.cells.get((math.floor(p[0] / self.CELL), math.floor(p[1] / self.CELL)), [])
        return min((distance(p, s) for s in near), default=1.0)
