package org.yardfall;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.yardfall.drain.TakeOff.Measure;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.fieldwork.CutRow;
import org.yardfall.fieldwork.CutSheet;
import org.yardfall.fieldwork.StakeSettings;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFolder;
import org.yardfall.layer.ResultsReader;
import org.yardfall.route.Route;
import org.yardfall.sheet.PlanSheet;
import org.yardfall.sheet.ReviewPage;
import org.yardfall.sheet.SheetSize;
import org.yardfall.sheet.SummaryText;
import org.yardfall.site.Prices;
import org.yardfall.site.Site;
import org.yardfall.site.SiteReader;
import org.yardfall.site.UnitSystem;
import org.yardfall.trench.TrenchSection;

/**
 * Every quantity that stands on more than one paper is the same on all of them, and follows from
 * what is printed beside it, on plans that differ in lot, storm, pipe and prices.
 */
class OneNumberTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final double ROUNDED_M3 = 0.01;

  /** Invented prices, in the order of the items. */
  private static final List<Integer> USUAL =
      List.of(40, 55, 3, 6, 8, 32, 9, 210, 38, 45, 160, 650, 900, 85);

  @TempDir private Path folder;

  private Path out;

  private JsonNode results;
  private List<CSVRecord> bill;
  private List<JsonNode> drains;

  @ParameterizedTest
  @CsvSource({
    "fernhill, 2, METRIC, 1",
    "fernhill, 2, US, 2",
    "fernhill, 9, US, 3",
    "fernhill, 7, METRIC, 5",
    "alder-row, B, US, 6",
    "alder-row, A, METRIC, 7"
  })
  void everyPaperSaysTheSame(String sample, String lot, UnitSystem units, long seed)
      throws IOException {
    Result result = Screening.of(varied(sample, lot, units, new Random(seed))).run();
    assertTrue(result.routes().size() > 0);
    out = folder.resolve("out");
    ResultFolder.write(
        result,
        units,
        out,
        List.of(
            to -> ReviewPage.write(result, units, to.resolve("review.html")),
            to -> PlanSheet.write(result, units, SheetSize.A3, to.resolve("plan.pdf"))));
    results = JSON.readTree(out.resolve("results.json").toFile());
    try (CSVParser csv =
        CSVParser.parse(
            out.resolve("take-off.csv"),
            StandardCharsets.UTF_8,
            CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get())) {
      bill = csv.getRecords();
    }
    drains = new ArrayList<>();
    JSON.readTree(out.resolve("layers/drains.geojson").toFile())
        .get("features")
        .forEach(f -> drains.add(f.get("properties")));
    bothBills(units);
    for (JsonNode route : results.get("routes")) {
      soil(route);
      prices(route);
      lengths(route);
    }
    papers(result, units);
    stakes();
  }

  /** A sample with another storm, pipe and other prices, some of them missing. */
  private Site varied(String sample, String lot, UnitSystem units, Random random)
      throws IOException {
    Path copy = Files.createDirectory(folder.resolve("site"));
    try (Stream<Path> files = Files.list(Path.of("..", "samples", sample))) {
      for (Path file : files.toList()) {
        Files.copy(file, copy.resolve(file.getFileName().toString()));
      }
    }
    Path yml = copy.resolve("site.yml");
    StringBuilder prices = new StringBuilder("prices: {");
    Iterator<Integer> usual = USUAL.iterator();
    for (Prices.Item item : Prices.Item.values()) {
      int whole = usual.next();
      if (random.nextInt(6) > 0) {
        String key = item.name().toLowerCase(Locale.ROOT).replace('_', '-');
        double price = whole * (50 + random.nextInt(150)) / 100.0;
        prices.append(String.format(Locale.ROOT, " %s: %.2f", key, price));
        prices.append(',');
      }
    }
    prices.setCharAt(prices.length() - 1, '}');
    Files.writeString(
        yml,
        Files.readString(yml)
                .replaceFirst("(?s)\nprices:.*?(?=\n#|\n?$)", "\n")
                .replaceFirst(
                    " pipe: 4 in", " pipe: " + List.of(3, 4, 6).get(random.nextInt(3)) + " in")
                .replaceFirst(
                    "depth: (65 mm|2.6 in)", "depth: " + (30 + random.nextInt(80)) + " mm")
            + "\n"
            + prices
            + "\n");
    return SiteReader.read(yml, Optional.of(lot), ElevationSource.PLANES).readIn(units);
  }

  /** The table for a spreadsheet and that of the results, line by line. */
  private void bothBills(UnitSystem units) {
    assertEquals(results.get("takeOff").size(), bill.size());
    for (int i = 0; i < bill.size(); i++) {
      CSVRecord csv = bill.get(i);
      JsonNode line = results.get("takeOff").get(i);
      assertEquals(line.get("routeId").asText(), csv.get("route"));
      assertEquals(line.get("code").asText(), csv.get("code"));
      Measure measure =
          List.of(Measure.values()).stream()
              .filter(m -> m.unit(UnitSystem.METRIC).equals(line.get("unit").asText()))
              .findFirst()
              .orElseThrow();
      assertEquals(measure.unit(units), csv.get("unit"));
      for (String key : List.of("needed", "sold")) {
        assertEquals(measure.quantity(units, number(line, key)), number(csv, key), 1e-3);
      }
      assertEquals(line.has("amount"), !csv.get("amount").isEmpty());
      if (line.has("amount")) {
        assertEquals(number(line, "amount"), number(csv, "amount"), 1e-9);
        assertEquals(number(csv, "sold") * number(csv, "unit_price"), number(csv, "amount"), 0.02);
      }
    }
  }

  /** Soil and stone by the stretches' own pipes, depths and covers. */
  private void soil(JsonNode route) {
    JsonNode trench = results.at("/site/trench");
    double width = number(results.at("/site/drain"), "trenchWidthM");
    List<JsonNode> features = features(route);
    double dug = 0;
    double stone = 0;
    List<JsonNode> lines = lines(route);
    for (int l = 0; l < lines.size(); l++) {
      double own = 0;
      JsonNode stations = lines.get(l).get("stations");
      JsonNode stretches = route.at("/design/lines/" + l + "/stretches");
      for (int i = 0; i < stretches.size(); i++) {
        JsonNode s = stretches.get(i);
        if (s.get("span").asText().equals("bored")) {
          continue;
        }
        double length = number(s, "toM") - number(s, "fromM");
        double invert =
            (number(stations.get(i), "depthM") + number(stations.get(i + 1), "depthM")) / 2;
        double outside = number(s.get("pipe"), "outsideM");
        double wall = (outside - number(s.get("pipe"), "insideM")) / 2;
        double bottom = Math.max(0, invert + wall + number(trench, "bedM"));
        double top =
            switch (s.get("cover").asText()) {
              case "lawn" -> number(trench, "sodM");
              case "pavement", "roof" -> number(trench, "pavementM");
              default -> 0;
            };
        own += length * width * bottom;
        stone += length * Math.max(0, width * (bottom - top) - Math.PI / 4 * outside * outside);
      }
      assertEquals(own, number(features.get(l), "dug_m3"), ROUNDED_M3);
      dug += own;
    }
    assertEquals(dug, number(route, "excavationM3"), ROUNDED_M3);
    assertEquals(number(route, "excavationM3"), needed(route, "excavation"), 1e-9);
    assertEquals(stone, needed(route, "stone-volume"), ROUNDED_M3);
    double sum = features.stream().mapToDouble(f -> number(f, "dug_m3")).sum();
    assertEquals(number(route, "excavationM3"), sum, 1e-4 * features.size());
    features.forEach(f -> assertEquals(number(route, "excavationM3"), number(f, "route_m3"), 1e-9));
  }

  private void prices(JsonNode route) {
    double sum = 0;
    boolean priced = false;
    boolean complete = true;
    for (CSVRecord line : bill) {
      if (line.get("route").equals(route.get("id").asText())) {
        sum += line.get("amount").isEmpty() ? 0 : number(line, "amount");
        priced |= !line.get("amount").isEmpty();
      }
    }
    for (JsonNode line : results.get("takeOff")) {
      boolean mine = line.get("routeId").equals(route.get("id"));
      complete &= !mine || line.get("priceItem").asText().isEmpty() || line.has("amount");
    }
    assertEquals(complete, route.at("/design/price/complete").asBoolean());
    assertEquals(priced, route.has("price"));
    for (JsonNode feature : features(route)) {
      assertEquals(complete, feature.path("no_price").asText("").matches("|null"));
      if (priced) {
        assertEquals(sum, number(route, "price"), 1e-6);
        assertEquals(sum, number(route.at("/design/price"), "known"), 1e-6);
        assertEquals(sum, number(feature, "price"), 1e-6);
      }
    }
  }

  private void lengths(JsonNode route) {
    List<JsonNode> features = features(route);
    double sum = 0;
    Map<String, Double> pipes = new HashMap<>();
    for (int l = 0; l < features.size(); l++) {
      sum += number(features.get(l), "length_m");
      assertEquals(number(route, "lengthM"), number(features.get(l), "route_m"), 6e-4);
      for (JsonNode s : route.at("/design/lines/" + l + "/stretches")) {
        double length = s.get("count").asInt() * (number(s, "toM") - number(s, "fromM"));
        pipes.merge(s.at("/pipe/name").asText(), length, Double::sum);
      }
    }
    assertEquals(number(route, "lengthM"), sum, 6e-4 * features.size());
    for (JsonNode line : results.get("takeOff")) {
      if (line.get("routeId").equals(route.get("id")) && line.get("code").asText().equals("pipe")) {
        assertEquals(pipes.remove(line.get("item").asText()), number(line, "needed"), 0.01);
      }
    }
    assertEquals(Map.of(), pipes);
  }

  /** The page, the sheet and the summary write the bill's figures, rounded for a reader. */
  private void papers(Result result, UnitSystem units) throws IOException {
    String page = Files.readString(out.resolve("review.html"));
    String sheet = text(out.resolve("plan.pdf"));
    String summary = SummaryText.ofPlan(result, units).replaceAll("\\s+", " ");
    for (JsonNode route : results.get("routes")) {
      assertTrue(page.contains("[\"Length\",\"" + units.length(number(route, "lengthM")) + "\"]"));
      String dug = units.volume(number(route, "excavationM3"));
      assertTrue(page.contains("[\"Dug\",\"" + dug + "\"]"), dug);
      if (route.has("price")) {
        String price = String.format(Locale.ROOT, "%,.0f", number(route, "price"));
        assertTrue(page.contains("[\"Price\",\"" + price), price);
      }
    }
    JsonNode best = results.at("/routes/0");
    assertTrue(summary.contains(units.length(number(best, "lengthM"))), summary);
    if (best.has("price")) {
      String price = String.format(Locale.ROOT, "%,.0f", number(best, "price"));
      assertTrue(summary.contains(" comes to " + price), summary);
      assertTrue(sheet.contains(price), price);
    }
    for (CSVRecord line : bill) {
      if (line.get("route").equals("R1")) {
        boolean pieces = line.get("unit").equals("each");
        String sold =
            String.format(
                Locale.ROOT,
                pieces ? "%.0f %s" : "%.1f %s",
                number(line, "sold"),
                line.get("unit"));
        assertTrue(sheet.contains(sold), sold + " of " + line.get("item"));
        if (!line.get("amount").isEmpty()) {
          assertTrue(
              sheet.contains(String.format(Locale.ROOT, "%,.2f", number(line, "amount"))),
              line.toString());
        }
      }
    }
  }

  /** The crew's trench is as deep as the one that is billed, with each stretch's own pipe. */
  private void stakes() {
    ResultsReader.Plan plan = ResultsReader.read(out);
    TrenchSection section = TrenchSection.of(plan.limits());
    for (Route route : plan.routes()) {
      CutSheet sheet = CutSheet.of(route, StakeSettings.of(section), plan.pipes().get(route.id()));
      JsonNode lines = JSON.createArrayNode();
      for (JsonNode each : results.get("routes")) {
        if (each.get("id").asText().equals(route.id())) {
          lines = each.at("/design/lines");
        }
      }
      for (int l = 0; l < sheet.lines().size(); l++) {
        CutSheet.Line line = sheet.lines().get(l);
        double end = line.rows().get(line.rows().size() - 1).stationM();
        assertEquals(number(drains(route.id()).get(l), "length_m"), end, 6e-4);
        for (CutRow row : line.rows()) {
          JsonNode pipe = pipe(lines.get(l).get("stretches"), row.stationM());
          double wall = (number(pipe, "outsideM") - number(pipe, "insideM")) / 2;
          assertTrue(row.pipe().endsWith(pipe.get("name").asText()), row.toString());
          assertEquals(
              row.groundM() - row.invertM() + wall + TrenchSection.BED_M, row.cutM(), 1e-5);
        }
      }
    }
  }

  private static JsonNode pipe(JsonNode stretches, double stationM) {
    JsonNode pipe = stretches.get(0).get("pipe");
    for (JsonNode s : stretches) {
      if (number(s, "fromM") <= stationM + 1e-3) {
        pipe = s.get("pipe");
      }
    }
    return pipe;
  }

  private static List<JsonNode> lines(JsonNode route) {
    List<JsonNode> lines = new ArrayList<>(List.of(route));
    route.get("branches").forEach(lines::add);
    return lines;
  }

  private List<JsonNode> features(JsonNode route) {
    List<JsonNode> features = drains(route.get("id").asText());
    assertEquals(lines(route).size(), features.size());
    return features;
  }

  private List<JsonNode> drains(String routeId) {
    return drains.stream().filter(f -> f.get("id").asText().equals(routeId)).toList();
  }

  private double needed(JsonNode route, String code) {
    for (JsonNode line : results.get("takeOff")) {
      if (line.get("routeId").equals(route.get("id")) && line.get("code").asText().equals(code)) {
        return number(line, "needed");
      }
    }
    return 0;
  }

  private static String text(Path pdf) throws IOException {
    try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
      return new PDFTextStripper().getText(document);
    }
  }

  private static double number(JsonNode node, String key) {
    assertTrue(node.path(key).isNumber(), key + " in " + node);
    return node.get(key).doubleValue();
  }

  private static double number(CSVRecord line, String key) {
    return Double.parseDouble(line.get(key));
  }
}
