// The editor pane: CodeMirror in a shadow root, its changes sent to the server, which has the one
// history of undo. Bundled by "make editor" into ../web/editor.js.
import {EditorState} from "@codemirror/state";
import {EditorView, keymap, lineNumbers, highlightActiveLine, drawSelection} from "@codemirror/view";
import {defaultKeymap} from "@codemirror/commands";
import {syntaxHighlighting, HighlightStyle, bracketMatching, indentUnit} from "@codemirror/language";
import {tags} from "@lezer/highlight";
import {yaml} from "@codemirror/lang-yaml";
import {autocompletion, completionKeymap} from "@codemirror/autocomplete";
import {lintGutter, setDiagnostics, lintKeymap} from "@codemirror/lint";
import {search, searchKeymap} from "@codemirror/search";
import {collab, receiveUpdates, sendableUpdates, getSyncedVersion} from "@codemirror/collab";
import {ChangeSet} from "@codemirror/state";

const colours = HighlightStyle.define([
  {tag: tags.propertyName, color: "var(--key)"},
  {tag: [tags.string, tags.content, tags.literal], color: "var(--ink)"},
  {tag: tags.lineComment, color: "var(--muted)", fontStyle: "italic"},
  {tag: [tags.punctuation, tags.separator, tags.brace, tags.squareBracket], color: "var(--muted)"},
]);

const look = EditorView.theme({
  "&": {height: "100%", fontSize: "13px", color: "var(--ink)", backgroundColor: "var(--paper)"},
  ".cm-content": {caretColor: "var(--ink)", fontFamily: "ui-monospace, 'Liberation Mono', Menlo, Consolas, monospace"},
  ".cm-cursor": {borderLeftColor: "var(--ink)"},
  ".cm-gutters": {backgroundColor: "var(--panel)", color: "var(--muted)", border: "none"},
  ".cm-activeLine": {backgroundColor: "var(--hover)"},
  "&.cm-focused .cm-selectionBackground, .cm-selectionBackground": {backgroundColor: "var(--selection)"},
  "&.cm-focused": {outline: "2px solid var(--focus)", outlineOffset: "-2px"},
  ".cm-tooltip, .cm-panels": {backgroundColor: "var(--panel)", color: "var(--ink)", border: "1px solid var(--rule)"},
  ".cm-tooltip-autocomplete ul li[aria-selected]": {backgroundColor: "var(--accent)", color: "var(--paper)"},
});

// makeEditor fills a host. hooks: push(rev, edits, group) sends edits and resolves to {stale, failed};
// undo(), redo(); keys, a list of {label, detail, info} to complete with.
export function makeEditor(host, tab, text, rev, hooks) {
  const root = host.shadowRoot ?? host.attachShadow({mode: "open"});
  let view, pushing = null, group = 0, typedAt = 0;
  const turn = what => () => { push().then(() => hooks[what]()); return true };
  const state = (doc, version) => EditorState.create({doc, extensions: [
    EditorState.lineSeparator.of("\n"), indentUnit.of("  "),
    lineNumbers(), highlightActiveLine(), drawSelection(), bracketMatching(), yaml(), syntaxHighlighting(colours), look,
    lintGutter(), search({top: true}), autocompletion({override: [complete], selectOnOpen: false}),
    EditorView.contentAttributes.of({tabindex: "0", "aria-label": "The file as text. Escape, then Tab leaves it."}),
    EditorView.domEventHandlers({beforeinput(e) {
      if (e.inputType === "historyUndo" || e.inputType === "historyRedo") { e.preventDefault(); turn(e.inputType === "historyUndo" ? "undo" : "redo")(); return true }
      return false }}),
    keymap.of([{key: "Mod-z", run: turn("undo")}, {key: "Mod-y", run: turn("redo")}, {key: "Mod-Shift-z", run: turn("redo")},
      ...completionKeymap, ...lintKeymap, ...searchKeymap, ...defaultKeymap]),
    collab({startVersion: version, clientID: tab}),
    EditorView.updateListener.of(u => { if (u.docChanged && sendableUpdates(u.state).length) queueMicrotask(push) })]});
  // Enter is a new line, unless an arrow has chosen one of what is offered.
  function complete(context) {
    const word = context.matchBefore(/[\w_]*/);
    if (!context.explicit && (!word || word.from === word.to)) return null;
    return {from: word ? word.from : context.pos, options: hooks.keys(), validFor: /^[\w_]*$/};
  }
  // What is typed within a second of the last key is undone at once.
  function groupNow() {
    const now = performance.now();
    if (now - typedAt > 1000) group++;
    typedAt = now;
    return `type ${tab} ${group}`;
  }
  function push() {
    if (pushing) return pushing;
    const updates = sendableUpdates(view.state);
    if (!updates.length || view.composing) return Promise.resolve();
    const done = hooks.push(getSyncedVersion(view.state), updates.map(u => u.changes.toJSON()), groupNow())
      .then(r => r.stale || r.failed ? new Promise(go => setTimeout(go, r.failed ? 400 : 30)) : null)
      .then(() => { pushing = null; return sendableUpdates(view.state).length ? push() : null });
    pushing = done;
    return done;
  }
  view = new EditorView({parent: root, root, state: state(text, rev)});
  return {
    rev: () => getSyncedVersion(view.state),
    text: () => view.state.doc.toString(),
    settle: push,
    load(text, rev) { view.setState(state(text, rev)) },
    receive(m) {
      const at = getSyncedVersion(view.state);
      const fresh = m.edits.slice(Math.max(0, at - (m.rev - m.edits.length)));
      if (fresh.length) view.dispatch(receiveUpdates(view.state, fresh.map(e => ({changes: ChangeSet.fromJSON(e), clientID: m.tab}))));
    },
    problems(all) {
      const doc = view.state.doc;
      view.dispatch(setDiagnostics(view.state, all.filter(p => p.line > 0).map(p => {
        const line = doc.line(Math.min(p.line, doc.lines)), from = Math.min(line.from + Math.max(p.column - 1, 0), line.to);
        return {from, to: Math.max(from, line.to), severity: "error", message: p.text};
      })));
    },
    goto(n) {
      const line = view.state.doc.line(Math.min(Math.max(n, 1), view.state.doc.lines));
      view.dispatch({selection: {anchor: line.from}, effects: EditorView.scrollIntoView(line.from, {y: "center"})});
      view.focus();
    },
    find(text) {
      const at = view.state.doc.toString().indexOf(text);
      if (at >= 0) view.dispatch({selection: {anchor: at}, effects: EditorView.scrollIntoView(at, {y: "center"})});
    },
  };
}
