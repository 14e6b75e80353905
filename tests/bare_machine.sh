#!/usr/bin/env bash
# The README's two blocks of commands, as they stand, as root on a bare Debian 12 that is made for it. By hand:
#   tests/bare_machine.sh [FOLDER [BLOCKS]]     a folder that holds such a Debian is used again; BLOCKS is 1 or 2
# It wants root, debootstrap and a network. Where the network needs its own certificates, name them in SSL_CERT_FILE;
# where apt needs its own settings, put them into APT_SETTINGS.
set -euo pipefail
cd "$(dirname "$0")/.."
root=${1:-$(mktemp -d)} blocks=${2:-2}
place=srv/topend certificates=srv/certificates.pem # inside it

[ "$(id -u)" = 0 ] || { echo "bare_machine: wants root, for debootstrap and chroot" >&2; exit 2; }
command -v debootstrap >/dev/null || { echo "bare_machine: wants debootstrap" >&2; exit 2; }
[ -e "$root/etc/debian_version" ] || debootstrap --variant=minbase bookworm "$root"

# the checkout, as git would give it to somebody else
rm -rf "$root/$place" && mkdir -p "$root/$place"
git ls-files -z | tar --null --files-from=- --create | tar --extract --directory="$root/$place"

inside=(HOME=/srv PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive)
for name in http_proxy https_proxy no_proxy PIP_DEFAULT_TIMEOUT; do
    [ -z "${!name:-}" ] || inside+=("$name=${!name}")
done
cp --dereference /etc/resolv.conf "$root/etc/resolv.conf"
if [ -n "${SSL_CERT_FILE:-}" ]; then
    cp "$SSL_CERT_FILE" "$root/$certificates"
    inside+=(SSL_CERT_FILE="/$certificates" PIP_CERT="/$certificates")
fi
[ -z "${APT_SETTINGS:-}" ] || echo "$APT_SETTINGS" >"$root/etc/apt/apt.conf.d/99settings"

mount -t proc proc "$root/proc"
trap 'umount "$root/proc"' EXIT

run() { chroot "$root" env -i "${inside[@]}" bash -euo pipefail -c "cd /$place && $1"; }
block() { awk -v wanted="$1" '/^```sh$/ {n++; next} /^```$/ {if (n == wanted) exit; next} n == wanted' README.md; }

echo "== first block: $(block 1)"
run "$(block 1)"
run '.venv/bin/python - <<"END"
import hashlib, json, pathlib
made = pathlib.Path("outputs/demo")
listed = json.loads((made / "manifest.json").read_text(encoding="utf-8"))
for one in listed:
    assert hashlib.sha256((made / one["path"]).read_bytes()).hexdigest() == one["sha256"], one["path"]
assert {"index.html", "assembly.step", "parts/stepped-stud.step", "parts/head-gasket.pdf"} <= {one["path"] for one in listed}
print(f"== {len(listed)} files in outputs/demo, each as the manifest lists it")
END'
differ=$(git ls-files outputs/demo | while read -r file; do cmp -s "$file" "$root/$place/$file" || echo "$file"; done)
echo "== gallery: ${differ:-the same bytes as here}"
if [ "$blocks" -ge 2 ]; then
    echo "== second block: $(block 2)"
    run "$(block 2)"
fi
