"""Puts the pieces of a pack together by what is printed of them: the feet on the base-board plan, then joint by joint."""

import itertools
import re

import numpy as np

from blind.board import feet
from blind.joints import Angle, Corner, Fold, Pose, Stands, at, rotation
from blind.sheets import templates_on
from geometry import ring_segments

FITS = 0.08  # mm: a joint that closes within this is taken as understood
UPRIGHT = 0.995  # cosine of the few degrees that a wall may lean while pieces are tried
TURNED = 2.0  # degrees by which a joint may miss its angle while pieces are tried
CLOSE = 0.3  # mm: near enough while pieces are still being added
FAR = 2.0  # mm: more than this is as bad as any


class Piece:
    """One piece as its template shows it from outside, with the lines of its joints by letter."""

    def __init__(self, name, template, k, count, turned, thick):
        flip = (lambda p: (-p[0], p[1])) if turned else (lambda p: tuple(p))
        ring = [flip(p) for p in template.ring]
        area = area_of(ring)
        self.ring = ring if area > 0 else ring[::-1]
        self.holes = [[flip(p) for p in hole] for hole in template.holes]
        self.name, self.thick, self.arrow = name, thick, template.one_arrow
        self.edges, self.stands = {}, {}
        lines = template.lines()
        for index, lists in template.letters.items():
            for letters in lists:
                letter = letters[k] if len(letters) == count else letters[0] if len(letters) == 1 else None
                if letter in (None, "–"):
                    continue
                line = tuple(flip(p) for p in lines[index])
                if index < len(template.ring):
                    self.edges.setdefault(letter, []).append(line[::-1] if area < 0 else line)
                else:
                    self.stands.setdefault(letter, []).append(line)


    def is_roof(self):
        return re.search(r"\b(roof|lid|floor)\b", self.name) is not None

    def lies_right(self, pose):
        """Walls and posts stand upright, floors and lids lie level, arrows of roofs point up; nothing is under the board."""
        up, out = pose.turn[2, 1], pose.turn[2, 2]
        low = min(pose.house(at(p, z))[2] for p in self.ring for z in (0.0, -self.thick))
        if not self.is_roof():
            right = up > UPRIGHT if self.arrow else abs(out) < 0.1
        elif re.search(r"\b(lid|floor)\b", self.name):
            right = out > UPRIGHT
        else:
            right = out > 0.0 and (up > 0.0 or not self.arrow)
        return right and low > -0.5


def area_of(ring):
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in ring_segments(ring))


def pieces(pack, facts):
    """Every piece, named by the joints of its letters."""
    last = max(facts.template.values())
    found = {}
    for sheet in pack.titled(r"^templates? \d"):
        for template in templates_on(sheet, facts.sizes):
            if template.number > last or not template.letters:
                continue
            names = [n for n, t in facts.template.items() if t == template.number]
            if template.number in (p.number for p in found.values()):
                continue
            over = template.turned_over
            for k in range(len(names)):
                piece = Piece("", template, k, len(names), k >= len(names) - over, 0.0)
                piece.number = template.number
                piece.name = named(piece, names, facts)
                piece.thick = facts.thick[piece.name]
                found[piece.name] = piece
    return found


def named(piece, names, facts):
    """The piece of a template that most of the letters speak of."""
    letters = set(piece.edges) | set(piece.stands)
    votes = {n: sum(n in facts.joints[l].ends for l in letters if l in facts.joints) for n in names}
    return max(votes, key=votes.get)


def on_plan(piece, plan, facts):
    """Pose of a wall or post whose foot is on the base-board plan, if it is."""
    for letter, edges in piece.edges.items():
        joint = facts.joints.get(letter)
        if joint is None or joint.kind != "base" or joint.ends[1] != piece.name or letter not in plan:
            continue
        (a, b), inner = plan[letter]
        a, b, inner = (np.array(p) for p in (a, b, inner))
        middle = (a + b) / 2
        inward = np.append(inner - middle, 0.0)
        way = np.append(b - a, 0.0) / np.linalg.norm(b - a)
        inward -= way * (inward @ way)
        inward /= np.linalg.norm(inward)
        up = np.array([0.0, 0.0, 1.0])
        turn = np.column_stack([np.cross(inward, up), up, -inward])
        foot = np.mean(edges[0], axis=0)
        return Pose(turn, np.append(middle, height_over(joint.ends[0], facts)) - turn @ at(foot, 0.0))
    return None


def height_over(floor, facts):
    """How high what stands on a floor stands over the base board: plates lie on each other with the gap between."""
    if floor == "base board":
        return 0.0
    under = [j.ends[0] for j in facts.joints.values() if j.kind == "layer" and j.ends[1] == floor]
    return facts.thick[floor] + facts.gap + (height_over(under[0], facts) if under else 0.0)


def readings(joint, one, two, gap):
    """All ways to read a joint of two pieces: which face, which side."""
    found = []
    letter = joint.letter
    edge, face = (joint.ends[0], joint.ends[1]), {joint.ends[0]: one, joint.ends[1]: two}
    for e, f in (edge, edge[::-1]):
        of, on = face[e], face[f]
        lines = on.stands.get(letter, [])
        if not lines and joint.kind not in ("corner", "ridge", "hip", "knee"):
            lines = on.edges.get(letter, [])
        for a, b in itertools.product(of.edges.get(letter, []), lines):
            for high in (gap, -on.thick - gap):
                usual, other = (-of.thick, 0.0) if of.is_roof() else (0.0, -of.thick)
                found.append(Stands(e, a, f, b, usual, high, other))
                found.append(Stands(e, a, f, b, other, high, usual, found[-1]))
    pairs = itertools.product(one.edges.get(letter, []), two.edges.get(letter, []))
    for a, b in pairs:
        thick = (one.thick, two.thick)
        if joint.kind == "corner":
            found.append(Corner(joint.ends[0], a, joint.ends[1], b, thick, gap))
        if joint.kind in ("ridge", "hip", "knee"):
            found.append(Fold(joint.ends[0], a, joint.ends[1], b, thick, gap))
    return found


class Building:
    def __init__(self, found, facts):
        self.pieces, self.facts = found, facts
        self.poses, self.misfits = {}, []
        self.readings = {}
        for letter, joint in facts.joints.items():
            if all(e in found for e in joint.ends):
                self.readings[letter] = readings(joint, found[joint.ends[0]], found[joint.ends[1]], facts.gap)
        # Short ones that run through the thickness of a roof, in an open ridge, are no lines on any face.
        self.unread = [letter for letter, ways in self.readings.items() if not ways]
        for letter in self.unread:
            del self.readings[letter]

    def off(self, reading, poses):
        return reading.off(poses[reading.first], poses[reading.second])

    def best(self, letter, poses):
        """The reading of a joint that two poses suit best, and by how much they miss it."""
        rated = []
        for k, r in enumerate(self.readings[letter]):
            two = poses[r.first], poses[r.second]
            wrong = r.is_wrong(*two) or not self.right_angle(letter, r.angle(*two))
            rated.append((np.inf if wrong else np.abs(self.off(r, poses)).max(), k))
        worst, k = min(rated, default=(np.inf, -1))
        return worst, (self.readings[letter][k] if k >= 0 else None)

    def right_angle(self, letter, degrees):
        joint = self.facts.joints[letter]
        return joint.kind == "layer" or abs(degrees - self.said(letter)) < TURNED

    def said(self, letter):
        """The angle of a joint on the inner side of the piece that ends at it: roofs in a valley go on under each other."""
        joint = self.facts.joints[letter]
        return joint.angle - 180 if joint.angle > 180 else joint.angle

    def joined(self, name):
        """Letters of the joints of a piece with what stands."""
        ends = lambda l: self.facts.joints[l].ends
        return [l for l in self.readings if name in ends(l) and all(e == name or e in self.poses for e in ends(l))]

    def tries(self, name, letter):
        """Poses of a new piece that suit one joint."""
        joint = self.facts.joints[letter]
        for r in self.readings[letter]:
            there, here = r.start() if r.second == name else r.start()[::-1]
            host = self.poses[r.first if r.second == name else r.second]
            a, b = (host.house(p) for p in there)
            c, d = here
            turns = (joint.angle, -joint.angle, 180 - joint.angle, joint.angle - 180)
            for (p, q), degrees in itertools.product(((a, b), (b, a)), turns):
                e = (q - p) / np.linalg.norm(q - p)
                f = (d - c) / np.linalg.norm(d - c)
                z = np.array([0.0, 0.0, 1.0])
                n = rotation(e * np.radians(degrees)) @ host.turn[:, 2]
                turn = np.column_stack([e, np.cross(n, e), n]) @ np.column_stack([f, np.cross(z, f), z]).T
                pose = Pose(turn, (p + q) / 2 - turn @ ((c + d) / 2))
                two = (host, pose) if r.second == name else (pose, host)
                if not r.is_wrong(*two) and self.right_angle(letter, r.angle(*two)) and self.pieces[name].lies_right(pose):
                    yield pose

    def rate(self, name, letters, pose):
        poses = {**self.poses, name: pose}
        misses = {l: self.best(l, poses) for l in letters}
        return sum(min(m, FAR) for m, _ in misses.values()), misses

    def place(self, name):
        """The pose of a new piece that most of its joints agree on, with those joints."""
        letters = self.joined(name)
        rated = []
        for letter in letters:
            for pose in self.tries(name, letter):
                rated.append((self.rate(name, letters, pose)[0], len(rated), pose))
        rated.sort(key=lambda r: r[:2])
        found = []
        for _, _, pose in self.distinct(name, rated):
            for near in (3.0, 0.5, 0.2):
                _, misses = self.rate(name, letters, pose)
                chosen = [(l, r) for l, (m, r) in misses.items() if m < near]
                if chosen:
                    pose = self.settle({name: pose}, [r for _, r in chosen] + self.angles(chosen))[name]
            total, misses = self.rate(name, letters, pose)
            if self.pieces[name].lies_right(pose):
                good = [l for l in letters if misses[l][0] < CLOSE]
                held = len(good) > 1 or any(getattr(misses[l][1], "ends", False) for l in good)
                found.append(((len(letters) - len(good), not held, -len(good), total), pose, good))
        if not found:
            return None
        found.sort(key=lambda f: f[0])
        equal = [f for f in found if f[0][:3] == found[0][0][:3]]
        return len(self.distinct(name, [(0, 0, f[1]) for f in equal])), *found[0]

    def distinct(self, name, rated, most=8):
        """The best poses that lay the piece differently."""
        corners = [at(p, 0.0) for p in self.pieces[name].ring]
        kept = []
        for entry in rated:
            where = np.array([entry[2].house(p) for p in corners])
            if all(np.abs(where - other).max() > 1.0 for other, _ in kept):
                kept.append((where, entry))
            if len(kept) == most:
                break
        return [entry for _, entry in kept]

    def angles(self, chosen):
        """The printed angles of joints that are read in some way."""
        return [Angle(r, self.said(l)) for l, r in chosen if self.facts.joints[l].kind != "layer"]

    def settle(self, free, terms, rounds=12):
        """Moves some pieces till what is asked of them misses least (Gauss and Newton, damped a little)."""
        poses, names = {**self.poses, **free}, list(free)
        index = {n: 6 * k for k, n in enumerate(names)}
        for _ in range(rounds):
            rows, values = [], []
            for term in terms:
                here = term.off(poses[term.first], poses[term.second])
                block = np.zeros((len(here), 6 * len(names)))
                for end in (term.first, term.second):
                    if end not in index:
                        continue
                    for k in range(6):
                        step = np.zeros(6)
                        step[k] = 1e-5
                        bent = {**poses, end: poses[end].moved(step)}
                        block[:, index[end] + k] = (term.off(bent[term.first], bent[term.second]) - here) / 1e-5
                rows.append(block)
                values.append(here)
            a, b = np.vstack(rows), np.concatenate(values)
            a = np.vstack([a, 1e-4 * np.eye(a.shape[1])])
            b = np.concatenate([b, np.zeros(a.shape[1])])
            step = np.linalg.lstsq(a, -b, rcond=None)[0]
            size = np.abs(step).max()
            if size > 20.0:
                step *= 20.0 / size
            for n in names:
                poses[n] = poses[n].moved(step[index[n] : index[n] + 6])
            if size < 1e-7:
                break
        return {n: poses[n] for n in names}

    def build(self, plan):
        for name, piece in self.pieces.items():
            pose = on_plan(piece, plan, self.facts)
            if pose is not None:
                self.poses[name] = pose
        self.fixed = set(self.poses)
        while True:
            waiting = [n for n in self.pieces if n not in self.poses and self.joined(n)]
            if not waiting:
                break
            placed = [(self.place(n), n) for n in waiting]
            placed = [p for p in placed if p[0] is not None]
            if not placed:
                break
            # What can lie in one way only comes first, and what most joints hold.
            (ways, rank, pose, good), name = min(placed, key=lambda p: (p[0][1][0] > 0, p[0][0] > 1, p[0][1]))
            if not good:
                break
            print(f"{name}: {len(good)} of {len(self.joined(name))} joints close, {ways} ways, {rank[-1]:.3f} mm in all")
            self.poses[name] = pose
        self.finish()

    def finish(self):
        """All together once more, by all joints that close."""
        free = {n: p for n, p in self.poses.items() if n not in self.fixed}
        for near in (0.5, 0.2):
            chosen = []
            for letter in self.readings:
                if all(e in self.poses for e in self.facts.joints[letter].ends):
                    miss, reading = self.best(letter, self.poses)
                    if miss < near:
                        chosen.append((letter, reading))
            if free:
                self.poses.update(self.settle({n: self.poses[n] for n in free}, [r for _, r in chosen] + self.angles(chosen), 6))
        for letter in self.readings:
            if all(e in self.poses for e in self.facts.joints[letter].ends):
                miss, _ = self.best(letter, self.poses)
                if miss > FITS:
                    self.misfits.append((letter, miss))


def put_together(pack, facts):
    building = Building(pieces(pack, facts), facts)
    building.build(feet(pack))
    return building
