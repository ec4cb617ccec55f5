#!/bin/sh
# Bundles the editor pane. Needs npm for the sources; what it makes is committed.
set -e
cd "$(dirname "$0")"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp package.json package-lock.json editor.mjs "$work/"
(cd "$work" && npm ci --ignore-scripts --no-audit --no-fund >/dev/null)
(cd "$work" && GOFLAGS=-mod=mod ${GO:-go} run github.com/evanw/esbuild/cmd/esbuild@v0.28.2 editor.mjs --bundle --format=esm --minify --target=es2022 --charset=utf8 --legal-comments=none --outfile=editor.js)
cp "$work/editor.js" ../web/editor.js
{
  echo "The editor pane (editor.js) is bundled of these packages, each under the MIT License."
  for p in "$work"/node_modules/@codemirror/* "$work"/node_modules/@lezer/* "$work"/node_modules/@marijn/* "$work"/node_modules/crelt "$work"/node_modules/style-mod "$work"/node_modules/w3c-keyname; do
    [ -f "$p/LICENSE" ] || continue
    printf '\n== %s %s ==\n\n' "${p#"$work"/node_modules/}" "$(sed -n 's/^ *"version": "\([^"]*\)".*/\1/p' "$p/package.json" | head -1)"
    cat "$p/LICENSE"
  done
} > ../web/editor-licences.txt
sha256sum ../web/editor.js | cut -d' ' -f1 > ../web/editor.js.sha256
