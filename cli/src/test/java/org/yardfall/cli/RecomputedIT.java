package org.yardfall.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Every number of the papers, worked out again from what stands beside it. */
class RecomputedIT {

  private static final ObjectMapper JSON = new ObjectMapper();

  /** What the last printed digits of a product's factors may come to, as a share of it. */
  private static final double FINE = 5e-4;

  private static final Pattern NUMBER = Pattern.compile("\\d+(?:\\.\\d+)?");

  @TempDir private Path folder;

  @Test
  void theSampleAddsUp() throws IOException {
    Path site = Starter.SAMPLES.resolve("fernhill/site.yml");
    JsonNode results = plan(site, "metric", "out");
    ledger(results);
    balances(results);
    for (JsonNode route : results.get("routes")) {
      pipes(route.get("design"));
      prices(route, results.get("takeOff"));
    }
    List<CSVRecord> metric = takeOff("out");
    plan(site, "us", "us");
    List<CSVRecord> us = takeOff("us");
    bill(metric, results.get("takeOff"));
    bill(us, results.get("takeOff"));
    sameInBothUnits(metric, us);
  }

  /** Two unit prices were given for this sample: the rest stand as quantities, and it is said. */
  @Test
  void quantitiesWithoutAPriceStandWithoutAnAmount() throws IOException {
    JsonNode results = plan(Starter.SAMPLES.resolve("alder-row/site.yml"), "metric", "out");
    JsonNode design = results.at("/routes/0/design");
    assertFalse(design.at("/price/complete").asBoolean());
    assertTrue(design.get("findings").toString().contains("No price was given for"));
    int priced = 0;
    int bare = 0;
    for (CSVRecord line : takeOff("out")) {
      assertEquals(line.get("unit_price").isEmpty(), line.get("amount").isEmpty());
      assertTrue(Double.parseDouble(line.get("needed")) > 0);
      priced += line.get("amount").isEmpty() ? 0 : 1;
      bare += line.get("amount").isEmpty() ? 1 : 0;
    }
    assertTrue(priced > 0 && bare > priced, priced + " with, " + bare + " without a price");
    // Its stone is priced by the ton: whole tons of 2000 lb, in either system.
    double sold = stone("out") / 0.90718474;
    assertEquals(Math.rint(sold), sold, 1e-3);
    plan(Starter.SAMPLES.resolve("alder-row/site.yml"), "us", "us");
    assertEquals(Math.rint(sold), stone("us"), 1e-3);
    bill(takeOff("out"), results.get("takeOff"));
    bill(takeOff("us"), results.get("takeOff"));
  }

  /** A pump's lift and its sump's room, from the numbers beside them. */
  @Test
  void aPumpsLiftIsTheDifferenceOfItsLevels() throws IOException {
    SmallYard yard = SmallYard.in(folder);
    yard.write(
        "site.yml",
        SmallYard.site(
                "dem.asc", "lots.geojson", "1", "at: [500017, 5000001], invert: 98.9 m, lid: 101 m")
            + "outlet-rules: { pumped: yes, outage: 3 h }\n");
    JsonNode results = plan(folder.resolve("site.yml"), "metric", "out");
    bill(takeOff("out"), results.get("takeOff"));
    plan(folder.resolve("site.yml"), "us", "us");
    List<CSVRecord> us = takeOff("us");
    bill(us, results.get("takeOff"));
    assertTrue(us.stream().anyMatch(line -> line.get("code").equals("pump")));
  }

  private double stone(String out) throws IOException {
    return takeOff(out).stream()
        .filter(line -> line.get("code").equals("stone"))
        .mapToDouble(line -> number(line, "sold"))
        .findFirst()
        .orElseThrow();
  }

  /** Dupuit stretch by stretch and Hooghoudt's equation, from the keys of the site file. */
  @Test
  void groundwaterIsWhatTheSiteFileSays() throws IOException {
    Path sample = Starter.SAMPLES.resolve("fernhill");
    String site = Files.readString(sample.resolve("site.yml"));
    String wet =
        site.replaceFirst(
                "(?s)soil:\\n.*?\\n\\n",
                "soil: { group: C, conductivity: 20 mm/h, water-table-depth: 0.4 m,"
                    + " impermeable-depth: 1.5 m,"
                    + " relief: { table-depth: 0.4 m, discharge: 10 mm/d } }\n\n")
            .replaceAll("(files: \\[|file: )", "$1" + sample + "/");
    assertFalse(wet.equals(site));
    Path file = Files.writeString(folder.resolve("wet.yml"), wet);
    JsonNode results = plan(file, "metric", "wet");
    JsonNode design = results.at("/routes/0/design");
    assertTrue(design.at("/groundwater/known").asBoolean());
    assertFalse(design.get("findings").toString().contains("surface water only"));
    double conductivity = 0.020 / 3600;
    double sum = 0;
    JsonNode stations = results.at("/routes/0/stations");
    for (int i = 0; i + 1 < stations.size(); i++) {
      JsonNode down = stations.get(i + 1);
      double depth = number(down, "groundM") - number(down, "invertM");
      double below = Math.max(0, 1.5 - depth);
      double drawdown = Math.min(depth, 1.5) - 0.4;
      if (drawdown > 0 && stations.get(i).get("span").asText().equals("open")) {
        double reach = Math.max(1, 3000 * drawdown * Math.sqrt(conductivity));
        double each = conductivity * (Math.pow(1.5 - 0.4, 2) - below * below) / (2 * reach);
        sum += 2 * each * (number(down, "stationM") - number(stations.get(i), "stationM"));
      }
    }
    assertEquals(sum, design.at("/groundwater/inflowM3s").asDouble(), 0.02 * sum + 1e-7);
    JsonNode relief = design.at("/groundwater/relief");
    double head = number(relief, "headM");
    assertEquals(number(relief, "drainDepthM") - 0.4, head, 1e-4);
    double discharge = 0.010 / 86_400 * Math.pow(number(relief, "spacingM"), 2);
    assertEquals(
        8 * conductivity * number(relief, "equivalentDepthM") * head
            + 4 * conductivity * head * head,
        discharge,
        0.005 * discharge);
    assertTrue(number(relief, "equivalentDepthM") < number(relief, "baseM"));
  }

  private JsonNode plan(Path site, String units, String out) throws IOException {
    Starter.Run run = Starter.run(folder, "plan", site, "--units", units, "--out", out);
    assertEquals("", run.err());
    assertEquals(Yardfall.DONE, run.exit());
    return JSON.readTree(folder.resolve(out).resolve("results.json").toFile());
  }

  private List<CSVRecord> takeOff(String out) throws IOException {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (Reader in = Files.newBufferedReader(folder.resolve(out).resolve("take-off.csv"));
        CSVParser lines = format.parse(in)) {
      return lines.getRecords();
    }
  }

  /** Each stretch of the property line: Q = C i A, areas by cover and parcel, runoff depths. */
  private static void ledger(JsonNode results) {
    double rainIn = results.at("/site/storm/depthM").asDouble() / 0.0254;
    double in = 0;
    double out = 0;
    for (JsonNode flow : results.get("inflow")) {
      double area = number(flow, "areaM2");
      double peak = number(flow, "coefficient") * number(flow, "intensityMPerS") * area;
      assertEquals(peak, number(flow, "peakM3s"), 1e-6 + 1e-4 * peak, flow.toString());
      double covers = 0;
      double runoff = 0;
      for (JsonNode cover : flow.get("covers")) {
        covers += number(cover, "areaM2");
        runoff += number(cover, "areaM2") * number(cover, "depthM");
        // TR-55 (June 1986), eq. 2-3 and 2-4, in inches.
        double s = 1000 / number(cover, "curveNumber") - 10;
        double depth =
            rainIn > 0.2 * s ? Math.pow(rainIn - 0.2 * s, 2) / (rainIn + 0.8 * s) * 0.0254 : 0;
        assertEquals(depth, number(cover, "depthM"), 1e-6);
      }
      assertEquals(area, covers, 0.01, flow.toString());
      double parcels = 0;
      for (JsonNode parcel : flow.get("parcels")) {
        parcels += number(parcel, "areaM2");
      }
      assertEquals(area, parcels, 0.01, flow.toString());
      // Low spots on the way hold some back; none of it is made.
      assertTrue(number(flow, "volumeM3") <= runoff + 0.01, flow.toString());
      if (flow.get("direction").asText().equals("in")) {
        in += number(flow, "volumeM3");
      } else {
        out += number(flow, "volumeM3");
      }
    }
    assertEquals(results.at("/site/lot/balance/inflowM3").asDouble(), in, 0.01);
    assertEquals(results.at("/site/lot/balance/outflowM3").asDouble(), out, 0.01);
  }

  /** Before and with every drain: what comes is what leaves, stands, soaks in and is drained. */
  private static void balances(JsonNode results) {
    List<JsonNode> balances = new ArrayList<>(List.of(results.at("/site/lot/balance")));
    results.get("routes").forEach(route -> balances.add(route.at("/effect/balance")));
    for (JsonNode b : balances) {
      assertEquals(
          number(b, "inflowM3") + number(b, "ownRainM3"),
          number(b, "outflowM3")
              + number(b, "standingM3")
              + number(b, "infiltratedM3")
              + number(b, "drainedM3")
              + number(b, "heldBeyondM3")
              + number(b, "inletM3"),
          0.001);
    }
    for (JsonNode route : results.get("routes")) {
      for (JsonNode neighbour : route.at("/effect/neighbours")) {
        boolean rises =
            number(neighbour, "afterM3") > number(neighbour, "beforeM3") + 1e-4
                || number(neighbour, "afterPeakM3s") > number(neighbour, "beforePeakM3s") + 1e-6
                || number(neighbour, "afterPerMetreM2")
                    > number(neighbour, "beforePerMetreM2") + 1e-4;
        assertEquals(rises, neighbour.get("rises").asBoolean(), neighbour.toString());
      }
    }
  }

  /** Station by station: Manning full, the load, what gets in, flows that never fall. */
  private static void pipes(JsonNode design) {
    double enters = 0;
    for (JsonNode line : design.get("lines")) {
      double flow = 0;
      for (JsonNode s : line.get("stretches")) {
        double inside = number(s.get("pipe"), "insideM");
        double full =
            s.get("count").asInt()
                / number(s.get("pipe"), "n")
                * Math.PI
                / 4
                * inside
                * inside
                * Math.pow(inside / 4, 2 / 3.0)
                * Math.sqrt(number(s, "grade"));
        assertEquals(full, number(s, "capacityM3s"), 2e-3 * full, s.toString());
        assertEquals(number(s, "flowM3s") / full, number(s, "loading"), 3e-3);
        assertTrue(number(s, "flowM3s") >= flow - 1e-7, s.toString());
        assertTrue(number(s, "arrivingM3s") >= number(s, "flowM3s") - 1e-7, s.toString());
        flow = number(s, "flowM3s");
        enters +=
            Math.min(number(s, "meetsM2PerS"), number(s, "intakeM2PerS"))
                * (number(s, "toM") - number(s, "fromM"));
        assertEquals(
            s.get("overtopped").asBoolean(),
            s.get("span").asText().equals("open")
                && number(s, "meetsM2PerS") > number(s, "intakeM2PerS"));
        assertEquals(number(s, "upstreamM") >= 60.96 ? 6 : 4, s.get("tradeNominalIn").asInt());
      }
    }
    double leaves = design.at("/outlet/peakM3s").asDouble();
    assertTrue(leaves <= enters + number(design.get("groundwater"), "inflowM3s") + 1e-5);
    JsonNode emptying = design.get("emptying");
    double slowest = emptying.get(emptying.get("slowest").asText() + "S").asDouble();
    assertEquals(slowest, number(emptying, "seconds"), 0.11);
    for (String limit : List.of("pipeS", "stoneS", "soilS")) {
      assertTrue(number(emptying, limit) <= slowest);
    }
  }

  /** The bill's lines against the design, and the price by which the route was ranked. */
  private static void prices(JsonNode route, JsonNode takeOff) {
    JsonNode design = route.get("design");
    Map<String, Double> lengths = new HashMap<>();
    double bored = 0;
    for (JsonNode line : design.get("lines")) {
      for (JsonNode s : line.get("stretches")) {
        double length = s.get("count").asInt() * (number(s, "toM") - number(s, "fromM"));
        lengths.merge(s.at("/pipe/name").asText(), length, Double::sum);
        bored += s.get("span").asText().equals("bored") ? length : 0;
      }
    }
    double amounts = 0;
    double net = 0;
    for (JsonNode line : takeOff) {
      if (!line.get("routeId").equals(route.get("id"))) {
        continue;
      }
      if (line.get("code").asText().equals("pipe")) {
        assertEquals(
            lengths.remove(line.get("item").asText()),
            number(line, "needed"),
            0.01,
            line.toString());
      }
      if (line.get("code").asText().equals("bore")) {
        assertEquals(bored, number(line, "needed"), 0.01);
      }
      if (line.has("amount")) {
        amounts += number(line, "amount");
        net += line.get("inRoutePrice").asBoolean() ? number(line, "netAmount") : 0;
      }
    }
    assertEquals(Map.of(), lengths, "pipe that is not in the bill");
    JsonNode price = design.get("price");
    assertTrue(price.get("complete").asBoolean());
    assertEquals(number(price, "known"), amounts, 0.1);
    assertEquals(number(price, "knownNet"), net, 0.1);
    assertEquals(
        number(price, "knownNet"),
        number(route, "searchPrice") + number(price, "largerPipes"),
        0.011);
  }

  /** take-off.csv, line by line, by the rules and numbers that it prints itself. */
  private static void bill(List<CSVRecord> lines, JsonNode results) {
    assertEquals(results.size(), lines.size());
    String route = "";
    Map<String, CSVRecord> of = new HashMap<>();
    for (CSVRecord line : lines) {
      if (!line.get("route").equals(route)) {
        of.clear();
        route = line.get("route");
      }
      of.put(line.get("code"), line);
      double needed = number(line, "needed");
      double sold = number(line, "sold");
      if (!line.get("amount").isEmpty()) {
        assertEquals(sold * number(line, "unit_price"), number(line, "amount"), 0.03);
      }
      List<Double> how = numbers(line.get("how"));
      List<Double> rule = numbers(line.get("rule"));
      switch (line.get("code")) {
        case "trench" -> {
          assertEquals(how.get(0) * how.get(1), needed, FINE * needed, line.toString());
          assertEquals(how.get(2) / how.get(3), how.get(1), FINE * how.get(1), line.toString());
          assertEquals(numbers(line.get("item")).get(0), how.get(3), 2e-3 * how.get(3));
        }
        case "excavation" ->
            assertEquals(
                how.get(0) * how.get(1) * how.get(2) / cubesIn(line), needed, FINE * needed);
        case "stone-volume" -> {
          assertEquals(how.get(0) - how.get(1) - how.get(2), needed, 2e-3, line.toString());
          assertEquals(number(of.get("excavation"), "needed"), how.get(0), 1e-3);
        }
        case "stone" -> {
          // 2000 lb in a short ton, 27 ft³ in a cubic yard.
          double ton = line.get("unit").equals("t") ? 1 : 2000.0 / 27;
          assertEquals(how.get(0) * how.get(1) / ton, needed, FINE * needed, line.toString());
          assertEquals(number(of.get("stone-volume"), "needed"), how.get(0), 1e-3);
          assertEquals(Math.ceil(needed / rule.get(1)), rule.get(0), line.toString());
          assertEquals(rule.get(0) * rule.get(1), sold, FINE * sold);
        }
        case "fabric" -> {
          assertEquals(how.get(0) * how.get(1), needed, FINE * needed, line.toString());
          double girth = rule.get(rule.size() - 2);
          double lap = rule.get(rule.size() - 1) / (line.get("unit").equals("ft²") ? 12 : 1);
          assertEquals(
              Math.ceil((how.get(1) - lap) / (rule.get(2) - lap)), rule.get(0), line.toString());
          assertEquals(rule.get(0) * rule.get(1) * rule.get(2), sold, FINE * sold);
          assertTrue(rule.get(1) >= girth && girth >= how.get(0) - 1e-2);
        }
        case "pipe" -> {
          assertEquals(length(line.get("how")), needed, leeway(line.get("how")), line.toString());
          assertEquals(Math.ceil(needed / rule.get(1) - 1e-4), rule.get(0), line.toString());
          assertEquals(rule.get(0) * rule.get(1), sold, FINE * sold);
        }
        case "bore", "tree-zone" ->
            assertEquals(length(line.get("how")), needed, leeway(line.get("how")), line.toString());
        case "sod", "pavement" ->
            assertEquals(how.get(0) * how.get(1), needed, FINE * needed, line.toString());
        case "spoil" -> {
          assertEquals(how.get(1) - how.get(2), how.get(0), 2e-3, line.toString());
          assertEquals(how.get(0) * (1 + how.get(3) / 100), needed, FINE * needed);
        }
        case "sump" -> {
          assertEquals(how.get(1) * how.get(2), how.get(0), 0.02 * how.get(0), line.toString());
        }
        case "pump" -> {
          assertTrue(how.get(1) > 0, line.toString());
          assertEquals(how.get(3) - how.get(2), how.get(1), 0.011, line.toString());
        }
        case "loads" -> {
          assertEquals(how.get(0) / how.get(1), needed, FINE * needed, line.toString());
          assertEquals(number(of.get("spoil"), "needed"), how.get(0), 1e-3);
          assertEquals(Math.ceil(needed), sold, 1e-9);
        }
        default -> {
          assertEquals("each", line.get("unit"), line.toString());
          assertEquals(needed, sold, 1e-9);
        }
      }
    }
  }

  private static double cubesIn(CSVRecord line) {
    return line.get("unit").equals("yd³") ? 27 : 1;
  }

  private static final Pattern RUN =
      Pattern.compile(", ([0-9.]+) to ([0-9.]+) (?:m|ft)(?:, × ([0-9]+))?");

  /** The sum of the runs {@code NAME, A to B m}, each times its pipes side by side. */
  private static double length(String how) {
    return RUN.matcher(how)
        .results()
        .mapToDouble(
            run ->
                pipes(run) * (Double.parseDouble(run.group(2)) - Double.parseDouble(run.group(1))))
        .sum();
  }

  /** What that may be off, as each run's ends are printed to a hundredth. */
  private static double leeway(String how) {
    return 1e-3 + RUN.matcher(how).results().mapToDouble(run -> 0.01 * pipes(run)).sum();
  }

  private static int pipes(MatchResult run) {
    return run.group(3) == null ? 1 : Integer.parseInt(run.group(3));
  }

  /** Feet, square feet, cubic yards and short tons: the same amounts for the same quantities. */
  private static void sameInBothUnits(List<CSVRecord> metric, List<CSVRecord> us) {
    Map<String, Double> size =
        Map.of("m", 0.3048, "m²", 0.09290304, "m³", 0.764554857984, "t", 0.90718474, "each", 1.0);
    assertEquals(metric.size(), us.size());
    for (int i = 0; i < metric.size(); i++) {
      CSVRecord a = metric.get(i);
      CSVRecord b = us.get(i);
      assertEquals(a.get("code"), b.get("code"));
      assertEquals(a.get("amount"), b.get("amount"));
      double unit = size.get(a.get("unit"));
      assertEquals(number(a, "needed"), number(b, "needed") * unit, 0.001);
      assertEquals(number(a, "sold"), number(b, "sold") * unit, 0.001);
      if (!b.get("amount").isEmpty()) {
        assertEquals(number(b, "sold") * number(b, "unit_price"), number(b, "amount"), 0.06);
      }
      assertFalse((b.get("how") + b.get("rule")).matches(".*\\d (?:m|m²|m³|t)\\b.*"), b.toString());
    }
  }

  private static List<Double> numbers(String text) {
    List<Double> numbers = new ArrayList<>();
    Matcher m = NUMBER.matcher(text);
    while (m.find()) {
      numbers.add(Double.parseDouble(m.group()));
    }
    return numbers;
  }

  private static double number(JsonNode node, String key) {
    return node.get(key).asDouble();
  }

  private static double number(CSVRecord line, String key) {
    return Double.parseDouble(line.get(key));
  }
}
