"""Plane loops of segments and arcs: area, distance, inside; holes' patterns; overlap of circles."""

import math
from .quantities import at

TAU = 2 * math.pi


def pattern(p):
    """The points of a hole pattern, in the definitions' order."""
    if "circle" in p:
        r, n, a = p["circle"] / 2, int(p["count"]), math.radians(p.get("first", 0.0))
        return [(r * math.cos(a + TAU * k / n), r * math.sin(a + TAU * k / n)) for k in range(n)]
    if "rectangle" in p:
        x, y = (v / 2 for v in p["rectangle"])
        t = math.radians(p.get("turned", 0.0))
        return [
            (a * math.cos(t) - b * math.sin(t), a * math.sin(t) + b * math.cos(t))
            for a, b in ((x, y), (-x, y), (-x, -y), (x, -y))
        ]
    return [(q[0], q[1]) for q in p["points"]]


def arc(c, r, a0, a1):
    return "A", c, r, a0, a1


def circle(c, r):
    return [arc(c, r, 0, TAU)]


def polygon(points, radii):
    """A polygon, either way round, with rounded corners."""
    if sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, points[1:] + points[:1])) < 0:
        points, radii = points[::-1], radii[::-1]
    ends, arcs = [], []
    for i, p in enumerate(points):
        a, b = points[i - 1], points[(i + 1) % len(points)]
        u = _unit(a[0] - p[0], a[1] - p[1])
        v = _unit(b[0] - p[0], b[1] - p[1])
        half = math.acos(max(-1, min(1, u[0] * v[0] + u[1] * v[1]))) / 2
        r = radii[i]
        if r <= 0:
            ends.append((p, p))
            arcs.append(None)
            continue
        t = r / math.tan(half)
        p0, p1 = (p[0] + u[0] * t, p[1] + u[1] * t), (p[0] + v[0] * t, p[1] + v[1] * t)
        m = _unit(u[0] + v[0], u[1] + v[1])
        c = (p[0] + m[0] * r / math.sin(half), p[1] + m[1] * r / math.sin(half))
        a0, a1 = math.atan2(p0[1] - c[1], p0[0] - c[0]), math.atan2(p1[1] - c[1], p1[0] - c[0])
        sweep = (a1 - a0 + math.pi) % TAU - math.pi
        ends.append((p0, p1))
        arcs.append(arc(c, r, a0, a0 + sweep))
    out = []
    for i in range(len(points)):
        if arcs[i]:
            out.append(arcs[i])
        out.append(("L", ends[i][1], ends[(i + 1) % len(points)][0]))
    return out


def _unit(x, y):
    n = math.hypot(x, y)
    return x / n, y / n


def band(circles):
    """Circles (x, y, r), anticlockwise, joined by outer tangents."""
    n = len(circles)
    if n == 1:
        return circle(circles[0][:2], circles[0][2])
    normals = []
    for i in range(n):
        (x0, y0, r0), (x1, y1, r1) = circles[i], circles[(i + 1) % n]
        l = math.hypot(x1 - x0, y1 - y0)
        s = (r0 - r1) / l
        c = math.sqrt(max(0, 1 - s * s))
        dx, dy = (x1 - x0) / l, (y1 - y0) / l
        normals.append((s * dx + c * dy, s * dy - c * dx))
    out = []
    for i in range(n):
        x, y, r = circles[i]
        a0 = math.atan2(normals[i - 1][1], normals[i - 1][0])
        a1 = math.atan2(normals[i][1], normals[i][0])
        out.append(arc((x, y), r, a0, a0 + (a1 - a0) % TAU))
        x1, y1, r1 = circles[(i + 1) % n]
        out.append(
            ("L", (x + r * normals[i][0], y + r * normals[i][1]), (x1 + r1 * normals[i][0], y1 + r1 * normals[i][1]))
        )
    return out


def hull(circles, samples=7200):
    """The tight band round circles: the boundary of their convex hull."""
    order = []
    for k in range(samples):
        a = TAU * k / samples
        i = max(
            range(len(circles)), key=lambda j: circles[j][0] * math.cos(a) + circles[j][1] * math.sin(a) + circles[j][2]
        )
        if not order or order[-1] != i:
            order.append(i)
    if len(order) > 1 and order[0] == order[-1]:
        order.pop()
    return band([circles[i] for i in order])


def outline(o):
    """The loop of an `outline` table, or None where it is not one of ours (dxf)."""
    if "circle" in o:
        return circle((0, 0), o["circle"] / 2)
    if "rectangle" in o:
        x, y = (v / 2 for v in o["rectangle"])
        return polygon([(x, y), (-x, y), (-x, -y), (x, -y)], [float(o.get("corner", 0))] * 4)
    if "lobes" in o:
        return band([tuple(q) for q in o["lobes"]])
    if "points" in o:
        return polygon([(q[0], q[1]) for q in o["points"]], [float(q[2]) if len(q) > 2 else 0.0 for q in o["points"]])
    return None


def area(loop):
    total = 0.0
    for s in loop:
        if s[0] == "L":
            total += s[1][0] * s[2][1] - s[2][0] * s[1][1]
        else:
            _, (x, y), r, a0, a1 = s
            total += r * r * (a1 - a0) + r * (x * (math.sin(a1) - math.sin(a0)) - y * (math.cos(a1) - math.cos(a0)))
    return abs(total) / 2


def distance(p, loop):
    """Signed: positive inside."""
    least = math.inf
    for s in loop:
        if s[0] == "L":
            (x0, y0), (x1, y1) = s[1], s[2]
            l2 = (x1 - x0) ** 2 + (y1 - y0) ** 2
            t = 0 if l2 == 0 else max(0, min(1, ((p[0] - x0) * (x1 - x0) + (p[1] - y0) * (y1 - y0)) / l2))
            least = min(least, math.hypot(p[0] - x0 - t * (x1 - x0), p[1] - y0 - t * (y1 - y0)))
        else:
            _, (x, y), r, a0, a1 = s
            lo, hi = min(a0, a1), max(a0, a1)
            if (math.atan2(p[1] - y, p[0] - x) - lo) % TAU <= hi - lo + 1e-12 or (p[0], p[1]) == (x, y):
                least = min(least, abs(math.hypot(p[0] - x, p[1] - y) - r))
            for a in (a0, a1):
                least = min(least, math.hypot(p[0] - x - r * math.cos(a), p[1] - y - r * math.sin(a)))
    return least if inside(p, loop) else -least


def inside(p, loop):
    """By the turning of the boundary about p, arcs cut into short chords."""
    turn, pts = 0.0, []
    for s in loop:
        if s[0] == "L":
            pts.append(s[1])
        else:
            _, (x, y), r, a0, a1 = s
            n = max(8, int(abs(a1 - a0) * 60))
            pts += [
                (x + r * math.cos(a0 + (a1 - a0) * k / n), y + r * math.sin(a0 + (a1 - a0) * k / n)) for k in range(n)
            ]
    for a, b in zip(pts, pts[1:] + pts[:1]):
        d = math.atan2(b[1] - p[1], b[0] - p[0]) - math.atan2(a[1] - p[1], a[0] - p[0])
        turn += (d + math.pi) % TAU - math.pi
    return abs(turn) > 1


def lens(r0, r1, c):
    """Common area of two circles."""
    if c >= r0 + r1:
        return 0.0
    if c <= abs(r0 - r1):
        return math.pi * min(r0, r1) ** 2
    a = math.acos((c * c + r0 * r0 - r1 * r1) / (2 * c * r0))
    b = math.acos((c * c + r1 * r1 - r0 * r0) / (2 * c * r1))
    return r0 * r0 * (a - math.sin(2 * a) / 2) + r1 * r1 * (b - math.sin(2 * b) / 2)


def share_inside(r, c, ro):
    """Share of a circle (radius r) that lies inside another (ro) at a distance c."""
    if c == 0:
        return 1.0 if r <= ro else 0.0
    return math.acos(max(-1.0, min(1.0, (c * c + r * r - ro * ro) / (2 * c * r)))) / math.pi


def shares(points, stiffness=None):
    """Statics of a rigid head on springs with a unit force on the bore's axis: each stud's share (with tilting)."""
    import numpy as np

    k = stiffness or [1.0] * len(points)
    a = np.array([[1, x, y] for x, y in points])
    w = np.linalg.pinv(a.T @ np.diag(k) @ a) @ np.array([1.0, 0, 0])
    return list(np.array(k) * (a @ w))


def surrounds(points):
    """How far the bore's axis lies inside the studs' polygon (negative: outside)."""
    angles = sorted(math.atan2(y, x) for x, y in points)
    gaps = [b - a for a, b in zip(angles, angles[1:] + [angles[0] + TAU])]
    return math.degrees(math.pi - max(gaps))


def old_holes(job):
    """[(x, y, diameter, depth, fill, pinned)]."""
    t = at(job, "barrel.old_holes", None)
    out = []
    for table in [t] if isinstance(t, dict) else t or []:
        if "pattern" not in table or "diameter" not in table:
            continue
        out += [
            (x, y, table["diameter"], table.get("depth"), table.get("fill"), table.get("pinned", False))
            for x, y in pattern(table["pattern"])
        ]
    return out
