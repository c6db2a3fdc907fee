#!/usr/bin/env bash
# Installs what the tests stand on, on Debian 12 or 13: virtual environments, a browser, a Java runtime, npm,
# what drives the browser (libatomic1), the libraries that make PDFs, the PDF-to-picture tools, and the two packages of package.json.
# Running it again changes nothing and takes under a second.
set -euo pipefail
cd "$(dirname "$0")"

missing=()
python3 -c 'import ensurepip' 2> /dev/null || missing+=(python3-venv)
command -v java > /dev/null || missing+=(default-jre-headless)
command -v npm > /dev/null || missing+=(npm)
for package in chromium libatomic1 libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 poppler-utils; do
    dpkg-query --show --showformat='${db:Status-Status}' "$package" 2> /dev/null | grep -qx installed || missing+=("$package")
done
if ((${#missing[@]})); then
    as_root=()
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo > /dev/null || {
            echo "These packages are missing: ${missing[*]}. Install them as root: apt-get install ${missing[*]}" >&2
            exit 1
        }
        as_root=(sudo)
    fi
    "${as_root[@]}" apt-get update -qq
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends "${missing[@]}"
fi

# Compared by version, so that a changed package.json is followed and an unchanged one costs no network.
wanted() { sed -n "s/^ *\"$1\": \"\([0-9.]*\)\",\{0,1\}$/\1/p" package.json; }
for package in axe-core vnu-jar; do
    if ! grep -qF "\"version\": \"$(wanted "$package")\"" "node_modules/$package/package.json" 2> /dev/null; then
        npm install --ignore-scripts --no-audit --no-fund --no-package-lock --no-update-notifier --loglevel=error
        break
    fi
done
