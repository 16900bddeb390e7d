#!/usr/bin/env bash
# Makes the PostgreSQL test image from Debian packages, for machines that have no image registry.
# Usage: make-image.sh IMAGE. As root; needs podman and debootstrap. Takes the mirror from this machine's apt.
set -euo pipefail
image=$1
here=$(cd "$(dirname "$0")" && pwd)
# shellcheck source=/dev/null
. /etc/os-release
mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' "Release: $VERSION_CODENAME" 'Component: main' | head -n 1)
[ -n "$mirror" ] || { echo "no apt source for $VERSION_CODENAME main on this machine" >&2; exit 1; }
package=$(apt-cache depends postgresql | sed -n 's/^ *Depends: *//p' | head -n 1)
for scheme in http https; do
  proxy=$(apt-config dump --format '%v' "Acquire::$scheme::Proxy")
  [ -z "$proxy" ] || export "${scheme}_proxy=$proxy"
done

root=$(mktemp -d -p "${TMPDIR:-/var/tmp}" planner-image.XXXXXX)
trap 'rm -rf --one-file-system "$root"' EXIT
debootstrap --variant=minbase --include="$package" "$VERSION_CODENAME" "$root" "$mirror" > "$root.log" 2>&1 \
  || { tail -n 20 "$root.log" >&2; rm -f "$root.log"; exit 1; }
rm -f "$root.log"
install -m 755 "$here/entry.sh" "$root/usr/local/bin/entry.sh"
# The compiler for long queries is left out with its library: it is a third of the size and no test needs it.
tar -C "$root" --numeric-owner -c \
  --exclude='./proc/*' --exclude='./sys/*' --exclude='./dev/*' --exclude='./var/cache/apt/*' --exclude='./var/lib/apt/lists/*' \
  --exclude='./var/lib/postgresql/*' --exclude='./usr/share/doc' --exclude='./usr/share/man' --exclude='./usr/share/locale' \
  --exclude='./usr/lib/*/libLLVM*' --exclude='./usr/lib/postgresql/*/lib/llvmjit*' --exclude='./usr/lib/postgresql/*/lib/bitcode' . |
  podman import --quiet \
    --change 'ENV PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin:'"$(cd "$root" && echo usr/lib/postgresql/*/bin | sed 's#^#/#')" \
    --change 'ENTRYPOINT ["/usr/local/bin/entry.sh"]' --change 'CMD ["postgres"]' --change 'STOPSIGNAL SIGINT' --change 'EXPOSE 5432' - "$image"
