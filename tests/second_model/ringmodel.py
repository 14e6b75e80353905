"""The ring as a thin inextensible curved beam: exact free shapes, the three expanders, unilateral contact."""

import math
import numpy as np
from .choices import OPT

X64, W64 = np.polynomial.legendre.leggauss(64)


def integral(f, a, b):
    return float((b - a) / 2 * np.dot(W64, f((b - a) / 2 * X64 + (a + b) / 2)))


def solve(f, x0, x1, tol=1e-13):
    """Secant."""
    f0, f1 = f(x0), f(x1)
    for _ in range(80):
        if f1 == f0 or abs(x1 - x0) < tol * max(1, abs(x1)):
            break
        x0, f0, x1 = x1, f1, x1 - f1 * (x1 - x0) / (f1 - f0)
        f1 = f(x1)
    return x1


class Ring:
    """D bore, a radial, h axial, m free gap and s1 closed gap on the mean line, s slit, E, eta set fraction."""

    def __init__(self, D, a, h, m, s1, s, E, eta):
        self.key = D, a, h, m, s1, s, E, eta
        self.D, self.a, self.h, self.m, self.s1, self.s, self.E, self.eta = D, a, h, m, s1, s, E, eta
        self.r = (D - a) / 2
        self.D0 = D + (s - s1) / math.pi
        self.r0, self.k0 = (self.D0 - a) / 2, 2 / (self.D0 - a)
        self.half = math.pi * self.r - s1 / 2  # arc from back to tip
        self.I = h * a**3 / 12
        k = (m - s1) / (3 * math.pi * self.r)
        self.K0 = k
        self.Kx = self._exact_k(k)
        self.K = k * (1 - 0.8 * k) if OPT["parameter_k"] == "0.8 K" else self.Kx
        self.Kc = self.Kx if OPT["contour_k"] == "exact" else k * (1 - 0.8 * k)

    def gap_of(self, k):
        end = self.half / self.r
        return 2 * self.r * integral(lambda p: np.cos(p - k * (p + np.sin(p))), 0, end)

    def _exact_k(self, k):
        return solve(lambda q: self.gap_of(q) - self.m, k, k * 0.97)

    # closed forms
    def tangential_force(self):
        return self.K * self.E * self.I / self.r**2

    def contact_pressure(self):
        return 2 * self.tangential_force() / (self.D * self.h)

    def working_stress(self):
        return self.E * self.K * self.a / self.r

    def fitting_stress(self):
        return 4 * self.E * self.a * (8 * self.a - self.m) / (3 * math.pi * (self.D - self.a) ** 2)

    def free_gap_inside(self):
        return self.m - self.a * math.sin(math.pi * (self.K if OPT["tilt"] == "corrected" else self.K0))

    # contoured expander
    def opened_curvature(self, s):
        return self.k0 + ((1 - self.Kc * (1 + np.cos(s / self.r))) / self.r - self.k0) / self.eta

    def opened_heading(self, s):
        return self.k0 * s + ((s - self.Kc * (s + self.r * np.sin(s / self.r))) / self.r - self.k0 * s) / self.eta

    def opened_point(self, s):
        """Mean line of the opened ring about an origin r0 from the back, and its heading."""
        x = -self.r0 + integral(lambda t: np.sin(self.opened_heading(t)), 0, s)
        return x, integral(lambda t: np.cos(self.opened_heading(t)), 0, s), float(self.opened_heading(s))

    def contour_open_gap(self):
        return 2 * self.opened_point(self.half)[1]

    def contour_stress(self):
        s = np.linspace(0, self.half, 721)
        return float(np.max(np.abs(self.opened_curvature(s) - self.k0))) * self.E * self.a / 2

    def profile_radius(self, degrees):
        """The expander's radius at an angle from the back."""

        def polar(s):
            x, y, t = self.opened_point(s)
            x, y = x + self.a / 2 * math.cos(t), y - self.a / 2 * math.sin(t)
            return math.degrees(math.atan2(y, -x)), math.hypot(x, y)

        if degrees == 0:
            return self.r0 - self.a / 2
        s = solve(
            lambda q: polar(q)[0] - degrees, math.radians(degrees) * self.r, math.radians(degrees) * self.r * 1.02
        )
        return polar(s)[1]

    # pin expander: exact elastica
    def _pin_shape(self, q, n=720):
        """Curvature, x, y, heading for a tip load q = P/EI; the tip's x is found by shooting."""
        ds = self.half / n

        def run(xt):
            st = np.array([-self.r0, 0.0, 0.0])
            rows = [st]
            f = lambda v: np.array([math.sin(v[2]), math.cos(v[2]), self.k0 - q * (xt - v[0])])
            for _ in range(n):
                a = f(st)
                b = f(st + ds / 2 * a)
                c = f(st + ds / 2 * b)
                d = f(st + ds * c)
                st = st + ds / 6 * (a + 2 * b + 2 * c + d)
                rows.append(st)
            return np.array(rows)

        xt = solve(lambda t: run(t)[-1, 0] - t, self.r0, self.r0 * 1.02, 1e-12)
        rows = run(xt)
        return self.k0 - q * (xt - rows[:, 0]), rows[:, 0], rows[:, 1], rows[:, 2]

    def pin(self):
        """(open gap, disc diameter, opened stress, free curvature over the arc): exact free shape."""
        n = 360
        ds = self.half / n

        def free_gap(q):
            k, *_ = self._pin_shape(q, n)
            kn = self.k0 + self.eta * (k - self.k0)
            mid = (kn[1:] + kn[:-1]) / 2
            head = np.concatenate([[0], np.cumsum(mid) * ds])
            cos = np.cos(head)
            return 2 * ds * float(cos[0] / 2 + cos[1:-1].sum() + cos[-1] / 2)

        q0 = self.Kx / self.r**2 / self.eta
        q = solve(lambda t: free_gap(t) - self.m, q0, q0 * 0.98, 1e-10)
        k, x, y, t = self._pin_shape(q, n)
        ix, iy = x + self.a / 2 * np.cos(t), y - self.a / 2 * np.sin(t)
        best = max((float(np.min(np.hypot(ix - c, iy))) for c in np.linspace(-0.1 * self.r, 0.15 * self.r, 2001)))
        stress = float(np.max(np.abs(k - self.k0))) * self.E * self.a / 2
        return 2 * float(y[-1]), 2 * best, stress, self.k0 + self.eta * (k - self.k0)

    # round expander
    def round_diameter(self):
        return self.D0 - 2 * self.a + (self.m - self.s) / (3.2491 * self.eta)

    def round_stress(self):
        return 1.1866 * self.E * self.a / 2 * (self.k0 - 2 / (self.round_diameter() + self.a))

    def natural(self, form, n=180, lobe=None):
        """Natural curvature after the heat at n + 1 points of the half ring; lobe = (number, error of the seat)."""
        s = np.linspace(0, self.half, n + 1)
        if form == "contoured":
            k = (1 - self.Kc * (1 + np.cos(s / self.r))) / self.r
        elif form == "pin":
            kn = self.pin()[3]
            k = np.interp(s, np.linspace(0, self.half, len(kn)), kn)
        else:
            big = (self.round_diameter() + self.a) / 2
            g, _ = contact(np.full(n + 1, self.k0), big, self.half, -1)
            k = self.k0 + self.eta * (curvature(g, big, self.half, -1) - self.k0)
        if lobe:
            j, e = lobe
            k = k + self.eta * e * (j * j - 1) * np.cos(j * s / self.r) / self.r**2
        return k

    def in_bore(self, form, lobe=None, n=180):
        """(ratio at the back, least mean over 10 degrees, tip force [N], greatest light [mm]) in a true bore."""
        k = self.natural(form, n, lobe)
        g, lam = contact(k, self.r, self.half, 1)
        ratio = lam / self.Kc  # over p0
        step = math.degrees(self.half / self.r) / n
        ratio[0] *= 2  # half a cell at the back
        w = max(1, round(10 / step))
        top = int(170 / step)
        full = np.concatenate([ratio[1 : w // 2 + 1][::-1], ratio[: top + 1]])
        means = np.convolve(full, np.ones(w) / w, "valid")
        dphi = self.half / self.r / n
        tip = (float(np.sum(lam[-3:])) - 2.5 * self.Kc) * dphi * self.E * self.I / self.r**2
        return float(np.mean(ratio[: w // 2])), float(np.min(means)), max(0.0, tip), float(np.max(g))


def operator(n, step):
    """Rows of g'' + g at points 0..n-1 (mirror at 0); the tip carries no moment."""
    a = np.zeros((n, n + 1))
    for i in range(n):
        a[i, i] += 1 - 2 / step**2
        a[i, i + 1] += 1 / step**2
        a[i, abs(i - 1)] += 1 / step**2
    return a


def contact(natural, radius, half, side):
    """Gap from the wall (>= 0) and the wall's reaction per angle, in units of EI/r^2 per r; side 1 bore, -1 mandrel."""
    from scipy.optimize import lsq_linear, nnls

    n = len(natural) - 1
    step = half / radius / n
    a = operator(n, step)
    w = np.ones(n)
    w[0] = 0.5
    b = side * radius**2 * (natural[:-1] - 1 / radius)
    sw = np.sqrt(w)
    aw, bw = a * sw[:, None] * step**2, b * sw * step**2
    try:
        g, _ = nnls(aw, bw, maxiter=20 * n)
    except RuntimeError:
        g = lsq_linear(aw, bw, bounds=(0, np.inf), method="bvls", max_iter=2000).x
    lam = a.T @ (w * (a @ g - b)) / radius
    return g, lam


def curvature(g, radius, half, side):
    n = len(g) - 1
    a = operator(n, half / radius / n)
    k = 1 / radius + side * (a @ g) / radius**2
    return np.concatenate([k, k[-1:]])
