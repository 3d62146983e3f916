const adopted = new Set<string>()

/** Adds a style given as text to the page, once; drawings and papers bring their own. */
export const adoptStyle = (style: string): void => {
  if (adopted.has(style)) return
  adopted.add(style)
  const sheet = new CSSStyleSheet()
  sheet.replaceSync(style)
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet]
}
