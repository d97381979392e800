#!/usr/bin/env bash
# Outside judges for the tests: a browser, a DXF auditor, a geometry library, a PDF renderer.
# Installs only what is missing, so a warm run costs nothing.
set -euo pipefail
missing=()
for package in chromium python3-ezdxf python3-shapely poppler-utils; do
  dpkg -s "$package" >/dev/null 2>&1 || missing+=("$package")
done
[ ${#missing[@]} -eq 0 ] && exit 0
as_root=""
[ "$(id -u)" -eq 0 ] || as_root="sudo"
$as_root apt-get update -qq
DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
