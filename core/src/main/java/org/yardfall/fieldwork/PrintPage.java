package org.yardfall.fieldwork;

import java.util.Collection;
import java.util.List;

/**
 * A page for the printer: one HTML file that needs no other, black on white; in large type for the
 * trench, or dense, to have all on one sheet for the file.
 */
public final class PrintPage {

  private static final String STYLE =
      """
      @page { margin: 12mm }
      body { font: 14pt/1.35 Helvetica, Arial, sans-serif; color: #000; background: #fff;
        margin: 12mm auto; padding: 0 4mm; max-width: 270mm }
      h1 { font-size: 22pt; margin: 0 0 2mm } h2 { font-size: 17pt; margin: 6mm 0 2mm }
      p, li { margin: 1mm 0 }
      table { border-collapse: collapse; width: 100%; page-break-inside: auto }
      thead { display: table-header-group } tr { page-break-inside: avoid }
      th, td { border: 0.4mm solid #000; padding: 1.2mm 2mm; text-align: right;
        font-variant-numeric: tabular-nums; white-space: nowrap }
      th { font-size: 11pt; border-bottom-width: 1mm }
      td.words, th.words { text-align: left; white-space: normal }
      td.big { font-size: 18pt; font-weight: bold }
      td.words span { font-size: 11pt }
      .verdict { font-size: 20pt; font-weight: bold; border: 1mm solid #000; padding: 2mm 4mm }
      svg { width: 100%; height: auto }
      @media print { body { margin: 0; padding: 0; max-width: none } table { width: calc(100% - 0.6mm) } }
      """;

  private static final String DENSE =
      """
      @page { size: landscape; margin: 9mm }
      body { font-size: 8.5pt; line-height: 1.25 }
      h1 { font-size: 14pt; margin: 0 } h2 { font-size: 10pt; margin: 2mm 0 0.7mm }
      p, li { margin: 0.4mm 0 } ul { margin: 0.7mm 0; padding-left: 5mm }
      th, td { border-width: 0.2mm; padding: 0.35mm 1mm }
      th { font-size: 7.5pt; border-bottom-width: 0.5mm; white-space: normal }
      td.big { font-size: 8.5pt } td.words span { font-size: 8pt }
      .verdict { font-size: 12pt; border-width: 0.5mm; padding: 0.5mm 2mm; margin: 1mm 0 }
      .side { display: flex; gap: 5mm; align-items: flex-start } .side > div { flex: 1 1 0 }
      svg { max-height: 80mm }
      """;

  private final StringBuilder html = new StringBuilder();

  /** A page in large type. */
  public PrintPage(String title) {
    this(title, "");
  }

  private PrintPage(String title, String style) {
    html.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>")
        .append(escaped(title))
        .append("</title>\n<style>\n")
        .append(STYLE)
        .append(style)
        .append("</style>\n</head>\n<body>\n<h1>")
        .append(escaped(title))
        .append("</h1>\n");
  }

  /** A page for one sheet. */
  public static PrintPage dense(String title) {
    return new PrintPage(title, DENSE);
  }

  /** What follows stands side by side with what follows {@link #beside}, up to {@link #under}. */
  PrintPage side() {
    html.append("<div class=\"side\"><div>\n");
    return this;
  }

  PrintPage beside() {
    html.append("</div><div>\n");
    return this;
  }

  PrintPage under() {
    html.append("</div></div>\n");
    return this;
  }

  /** A heading. */
  public PrintPage heading(String text) {
    return element("h2", "", text);
  }

  /** A paragraph. */
  public PrintPage paragraph(String text) {
    return element("p", "", text);
  }

  PrintPage verdict(String text) {
    return element("p", " class=\"verdict\"", text);
  }

  /** A list; nothing where there are no items. */
  public PrintPage list(Collection<String> items) {
    if (!items.isEmpty()) {
      html.append("<ul>\n");
      items.forEach(item -> element("li", "", item));
      html.append("</ul>\n");
    }
    return this;
  }

  /** A drawing that is markup already. */
  public PrintPage drawing(String svg) {
    html.append(svg).append('\n');
    return this;
  }

  /**
   * Opens a table whose name stands above its heads on every sheet of paper.
   *
   * @param heads one that starts with {@code <} stands to the left, as words do
   */
  PrintPage table(String name, List<String> heads) {
    html.append("<table>\n<thead><tr><th class=\"words\" colspan=\"")
        .append(heads.size())
        .append("\">")
        .append(escaped(name))
        .append("</th></tr>\n");
    return heads(heads);
  }

  /** Opens a table; a head that starts with {@code <} stands to the left, as words do. */
  public PrintPage table(List<String> heads) {
    html.append("<table>\n<thead>");
    return heads(heads);
  }

  private PrintPage heads(List<String> heads) {
    html.append("<tr>");
    for (String head : heads) {
      boolean words = head.startsWith("<");
      html.append(words ? "<th class=\"words\">" : "<th>")
          .append(escaped(words ? head.substring(1) : head))
          .append("</th>");
    }
    html.append("</tr></thead>\n<tbody>\n");
    return this;
  }

  /** A row; a cell that starts with {@code <} holds words, with {@code !} the figure to read. */
  public PrintPage row(List<String> cells) {
    html.append("<tr>");
    for (String cell : cells) {
      char mark = cell.isEmpty() ? ' ' : cell.charAt(0);
      String rest = mark == '<' || mark == '!' ? cell.substring(1) : cell;
      html.append(
              mark == '<'
                  ? "<td class=\"words\"><span>"
                  : mark == '!' ? "<td class=\"big\">" : "<td>")
          .append(escaped(rest))
          .append(mark == '<' ? "</span></td>" : "</td>");
    }
    html.append("</tr>\n");
    return this;
  }

  /** Closes the table. */
  public PrintPage endTable() {
    html.append("</tbody>\n</table>\n");
    return this;
  }

  private PrintPage element(String tag, String attributes, String text) {
    html.append('<')
        .append(tag)
        .append(attributes)
        .append('>')
        .append(escaped(text))
        .append("</")
        .append(tag)
        .append(">\n");
    return this;
  }

  /** The text with what HTML would take for markup escaped, and without control characters. */
  static String escaped(String text) {
    StringBuilder out = new StringBuilder(text.length() + 16);
    text.codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                default -> {
                  if (Character.isISOControl(c)) {
                    out.append(' ');
                  } else {
                    out.appendCodePoint(c);
                  }
                }
              }
            });
    return out.toString();
  }

  @Override
  public String toString() {
    return html + "</body>\n</html>\n";
  }
}
