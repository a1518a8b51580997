package org.yardfall.sheet;

import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.Locale;
import org.yardfall.layer.CleanText;
import org.yardfall.layer.Result;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.UnitSystem;

/**
 * The review page: one file with everything in it, opened from disk without network or server.
 *
 * <p>All text from the data travels as JSON in an inert block and is put on the page as text only.
 * The page's content security policy lets nothing run or load but its own script and style, known
 * by their hashes, so that markup in the data could not act even if it got through.
 *
 * <p>Colours are those of the layers' styles ({@link org.yardfall.layer.LayerStyle}: Okabe &amp;
 * Ito; ColorBrewer), which colour-blind readers can tell apart; what belongs together differs in
 * width, dash or mark too. The map is drawn by Leaflet (BSD 2-clause; its notice stays in the
 * page).
 */
public final class ReviewPage {

  private static final String LEAFLET = "/META-INF/resources/webjars/leaflet/1.9.4/dist/";
  private static final int TITLE = 80;
  private static final JsonMapper JSON = JsonMapper.builder().build();

  private ReviewPage() {}

  /**
   * Writes the page. The same result gives the same bytes.
   *
   * @param result what to show
   * @param units the reader's units
   * @param file where to; an existing file is replaced
   * @throws IOException if the file cannot be written, or the site's orthophoto cannot be read
   */
  public static void write(Result result, UnitSystem units, Path file) throws IOException {
    String css = resource(LEAFLET + "leaflet.css").replaceAll("url\\(images/[^)]*\\)", "none");
    css += resource("review.css");
    String map = resource(LEAFLET + "leaflet.js").replaceAll("//# sourceMappingURL=.*", "");
    String app = resource("review.js");
    String page =
        resource("review.html")
            .replace("@style-hash@", hash(css))
            .replace("@script-hashes@", hash(map) + " " + hash(app))
            .replace("@title@", escape(brief(result.site().name())))
            .replace("@draft@", escape(PlanNotes.DRAFT));
    try (var out = Files.newBufferedWriter(file)) {
      String rest = page;
      for (String part : new String[] {"style", "data", "map", "app"}) {
        int at = rest.indexOf("@" + part + "@");
        out.write(rest.substring(0, at));
        out.write(
            switch (part) {
              case "style" -> css;
              case "data" -> data(result, units);
              case "map" -> map;
              default -> app;
            });
        rest = rest.substring(at + part.length() + 2);
      }
      out.write(rest);
    }
  }

  /** The data as JSON in which nothing can end the block that it stands in. */
  static String data(Result result, UnitSystem units) throws IOException {
    ObjectNode page = JsonNodeFactory.instance.objectNode();
    page.put("name", CleanText.of(result.site().name()));
    page.put("lot", result.site().lot().map(lot -> CleanText.of(lot.id())).orElse(""));
    page.put("draft", PlanNotes.DRAFT);
    page.put("crs", result.site().crs().name());
    page.put("metresPerUnit", result.site().crs().metresPerUnit());
    page.put("length", units.lengthUnit()).put("lengthM", units.metresPerLengthUnit());
    Wording wording = new Wording(result, units);
    PageMap map = new PageMap(result, units);
    map.write(page);
    new PageRoutes(result, units, map.shapes()).write(page);
    depths(page.putArray("depths"), units);
    ledger(page.putArray("ledger"), result, units);
    sources(page.putArray("sources"), result, units);
    PageRoutes.texts(page.putArray("warnings"), wording.onPage(result.warnings()));
    PageRoutes.texts(page.putArray("cautions"), Cautions.of(result, result.routes(), units));
    ArrayNode assumptions = page.putArray("assumptions");
    for (AssumedNotes.Note note : AssumedNotes.of(result.assumptions(), wording::onPage)) {
      assumptions
          .addArray()
          .add(CleanText.of(note.about()))
          .add(CleanText.of(note.values()))
          .add(CleanText.of(source(note)));
    }
    return JSON.writeValueAsString(page)
        .replace("<", "\\u003c")
        .replace("\u2028", "\\u2028")
        .replace("\u2029", "\\u2029");
  }

  private static String source(AssumedNotes.Note note) {
    String own = note.practice() ? "common practice, no source" : "";
    return note.source() + (note.source().isEmpty() || own.isEmpty() ? "" : "; ") + own;
  }

  private static void depths(ArrayNode rows, UnitSystem units) {
    DepthClasses classes = new DepthClasses(units);
    for (int i = 0; i < classes.count(); i++) {
      rows.addObject()
          .put("color", String.format(Locale.ROOT, "#%06X", classes.rgb(i)))
          .put("words", classes.words(i));
    }
  }

  private static void ledger(ArrayNode rows, Result result, UnitSystem units) {
    for (BoundaryFlow flow : result.flows()) {
      String least = flow.atLeast() ? "≥ " : "";
      rows.addArray()
          .add(flow.id())
          .add(
              (flow.enters() ? "in from " : "out to ")
                  + (flow.neighbour().isEmpty()
                      ? "ground in no parcel"
                      : CleanText.of(flow.neighbour()))
                  + FlowOrigin.note(flow, units, CleanText::of))
          .add(units.length(flow.widthM()))
          .add(least + units.area(flow.areaM2()))
          .add(least + units.water(flow.volumeM3()))
          .add(least + units.flow(flow.peakM3S()))
          .add(CleanText.of(units.restate(flow.surfaces())));
    }
  }

  private static void sources(ArrayNode rows, Result result, UnitSystem units) {
    PageRoutes.texts(rows, SourceNotes.of(result, units));
  }

  private static String resource(String name) throws IOException {
    try (InputStream in = ReviewPage.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IOException("not on the class path: " + name);
      }
      // Browsers read every line end as one line feed, and take the hashes after that.
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).replace("\r\n", "\n");
    }
  }

  private static String hash(String text) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return "'sha256-" + Base64.getEncoder().encodeToString(digest) + "'";
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  /** A name for the head of the page: the browser has fonts for it, and isolates its direction. */
  private static String brief(String name) {
    String clean = CleanText.of(name);
    int points = clean.codePointCount(0, clean.length());
    return points <= TITLE ? clean : clean.substring(0, clean.offsetByCodePoints(0, TITLE)) + "…";
  }

  private static String escape(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;")
        .replace("@", "&#64;");
  }
}
