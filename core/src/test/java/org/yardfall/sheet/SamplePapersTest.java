package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.yardfall.Screening;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.layer.Result;
import org.yardfall.layer.TakeOffCsv;
import org.yardfall.site.SiteReader;
import org.yardfall.site.UnitSystem;

/** What people read of the samples' results. */
class SamplePapersTest {

  private static final Map<String, Result> DONE = new ConcurrentHashMap<>();

  /** A figure with a metric unit; grain sizes are in millimetres for everybody. */
  private static final Pattern METRIC =
      Pattern.compile(
          "[^\\n]{0,40}[0-9] (?:m|cm|m²|m³|m2|m3|l/s|m³/s|m/s|t/m³|km)(?![\\p{L}\\d²³/-])[^\\n]{0,20}");

  @TempDir Path temp;

  private static Result result(String sample) {
    return DONE.computeIfAbsent(
        sample,
        name ->
            Screening.of(
                    SiteReader.read(
                        Path.of("..", "samples", name, "site.yml"), ElevationSource.PLANES))
                .run());
  }

  @ParameterizedTest
  @ValueSource(strings = {"alder-row", "fernhill"})
  void aReaderInFeetMeetsNoMetres(String sample) throws IOException {
    Result result = result(sample);
    List<String> texts = new ArrayList<>();
    texts.add(SummaryText.ofPlan(result, UnitSystem.US).replaceAll("\\n  ", " "));
    texts.add(SummaryText.ofWater(result, UnitSystem.US).replaceAll("\\n  ", " "));
    texts(page(result, UnitSystem.US), texts);
    texts.add(sheet(result, UnitSystem.US));
    Path takeOff = temp.resolve("take-off.csv");
    TakeOffCsv.write(result.designs(), UnitSystem.US, takeOff);
    texts.add(Files.readString(takeOff));
    assertTrue(texts.size() > 200);
    for (String text : texts) {
      Matcher found = METRIC.matcher(text);
      assertEquals("", found.find() ? found.group() : "");
    }
  }

  /** Who reads the same word twice stops reading: each general caution stands once. */
  @ParameterizedTest
  @ValueSource(strings = {"alder-row", "fernhill"})
  void whatHoldsForTheWholeDrainIsSaidOnce(String sample) throws IOException {
    Result result = result(sample);
    List<String> page = new ArrayList<>();
    texts(page(result, UnitSystem.METRIC).get("cautions"), page);
    for (String text :
        List.of(
            SummaryText.ofPlan(result, UnitSystem.METRIC).replaceAll("\\s+", " "),
            sheet(result, UnitSystem.METRIC).replaceAll("\\s+", " "),
            String.join(" ", page))) {
      for (String once :
          List.of(
              "buried utilities located",
              "licensed practice decide",
              "neighbour faster, in greater amount")) {
        assertEquals(2, text.split(once, -1).length, once);
      }
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"alder-row", "fernhill"})
  void aPageIsSmallEnoughToSend(String sample) throws IOException {
    Path file = temp.resolve("review.html");
    ReviewPage.write(result(sample), UnitSystem.METRIC, file);
    assertTrue(Files.size(file) < 5_000_000);
  }

  /** The street's low spots drain by catch basins: the sheet says what stands when those clog. */
  @Test
  void theSheetSaysWhatStandsWithBlockedInlets() throws IOException {
    String sheet = sheet(result("fernhill"), UnitSystem.METRIC);
    assertTrue(sheet.contains("inlets blocked: "), sheet);
    assertTrue(sheet.contains("standing water, inlets blocked"));
    List<String> deeper =
        BlockedWater.deeper(result("fernhill")).stream().map(pond -> pond.lowSpotId()).toList();
    assertTrue(deeper.contains("L1"));
    assertFalse(deeper.contains("L2")); // no inlet in the back yard
  }

  /** No label of a plan lies on another or leaves the drawing, at any scale. */
  @ParameterizedTest
  @ValueSource(strings = {"alder-row", "fernhill"})
  void noLabelOfThePlanCoversAnother(String sample) {
    Result result = result(sample);
    Rectangle2D frame = new Rectangle2D.Double(0, 0, 900, 700);
    for (double scale : new double[] {3, 5, 9.45, 14.17}) {
      BufferedImage image = new BufferedImage(900, 700, BufferedImage.TYPE_INT_RGB);
      List<Rectangle2D> labels =
          MapPainter.paint(
                  image.createGraphics(),
                  MapView.centred(SiteExtent.of(result), scale, frame),
                  result,
                  UnitSystem.US,
                  DrawnContours.of(
                      result.terrain().ground(), SiteExtent.photo(result), UnitSystem.US),
                  result.routes().get(0))
              .labels();
      assertTrue(labels.size() > 20, () -> labels.size() + " labels");
      for (Rectangle2D label : labels) {
        assertTrue(frame.contains(label));
        assertEquals(1, labels.stream().filter(label::intersects).count());
      }
    }
  }

  private JsonNode page(Result result, UnitSystem units) throws IOException {
    Path file = temp.resolve("review.html");
    ReviewPage.write(result, units, file);
    Matcher data =
        Pattern.compile("<script id=\"data\"[^>]*>(.*?)</script>", Pattern.DOTALL)
            .matcher(Files.readString(file));
    assertTrue(data.find());
    return new ObjectMapper().readTree(data.group(1));
  }

  private String sheet(Result result, UnitSystem units) throws IOException {
    Path file = temp.resolve("plan.pdf");
    PlanSheet.write(result, units, SheetSize.TABLOID, file);
    try (PDDocument document = Loader.loadPDF(file.toFile())) {
      return new PDFTextStripper().getText(document);
    }
  }

  /** All texts of the page but its pictures. */
  private static void texts(JsonNode node, List<String> to) {
    if (node.isTextual() && !node.asText().startsWith("data:")) {
      to.add(node.asText());
    }
    node.forEach(child -> texts(child, to));
  }
}
