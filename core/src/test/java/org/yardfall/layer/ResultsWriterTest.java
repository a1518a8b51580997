package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.BadInputException;

class ResultsWriterTest {

  @TempDir Path folder;

  @Test
  void everyResultObeysTheSchema() throws IOException {
    checkObeysSchema(ResultFixture.metric());
    checkObeysSchema(ResultFixture.usFeet());
    checkObeysSchema(ResultFixture.empty());
    checkObeysSchema(ResultFixture.withIds(HostileText.ID));
  }

  @Test
  void theSchemaRefusesWhatItDoesNotKnow() throws IOException {
    String json = text(ResultFixture.metric()).replace("\"lengthM\"", "\"length\"");
    assertTrue(violations(json).size() >= 2, "a missing and an unknown key");
  }

  @Test
  void theKeysStandInTheContractsOrder() throws IOException {
    List<String> keys = new ArrayList<>();
    new ObjectMapper()
        .readTree(text(ResultFixture.metric()))
        .fieldNames()
        .forEachRemaining(keys::add);
    assertEquals(
        List.of(
            "schemaVersion",
            "site",
            "assumptions",
            "warnings",
            "cautions",
            "terrain",
            "lowSpots",
            "inflow",
            "outlets",
            "routes",
            "rejected",
            "takeOff"),
        keys);
  }

  @Test
  void coordinatesAreThoseOfTheWorkingCrsAndLengthsAreMetres() throws IOException {
    JsonNode route =
        new ObjectMapper().readTree(text(ResultFixture.usFeet())).path("routes").path(0);
    // 5 m east of 1500000 ft: 5 x 3937/1200 = 16.4042 US survey feet, by the foot's definition
    assertEquals(1500016.4042, route.path("vertices").path(0).path(0).asDouble(), 1e-4);
    assertEquals(93, route.path("stations").path(4).path("stationM").asDouble(), 1e-9);
    assertEquals(93 + 25, route.path("lengthM").asDouble(), 1e-9);
  }

  @Test
  void saidOnceIsSaidOnce() throws IOException {
    JsonNode root = new ObjectMapper().readTree(text(ResultFixture.metric()));
    checkSaidOnce(root.path("assumptions"));
    checkSaidOnce(root.path("cautions"));
    assertTrue(root.path("assumptions").toString().contains("drain.setback"));
  }

  @Test
  void waterStandsWithTheInletsOpenAndBlocked() throws IOException {
    JsonNode root = new ObjectMapper().readTree(text(ResultFixture.metric()));
    JsonNode spot = root.path("lowSpots").path(0);
    assertEquals(0.2, spot.path("standing").path("depthM").asDouble());
    assertEquals(0.25, spot.path("standingBlocked").path("depthM").asDouble());
    checkBalance(root.path("terrain").path("stormWater"));
    checkBalance(root.path("terrain").path("stormWaterBlocked"));
  }

  private static void checkBalance(JsonNode water) {
    double parts = 0;
    for (String part : List.of("infiltratedM3", "standingM3", "leftM3", "inletM3")) {
      parts += water.path(part).asDouble(Double.NaN);
    }
    assertEquals(water.path("rainM3").asDouble(), parts, 1e-3);
  }

  @Test
  void everyLineOfTheTakeOffIsThere() throws IOException {
    Result result = ResultFixture.metric();
    int lines = result.designs().stream().mapToInt(d -> d.takeOff().lines().size()).sum();
    assertTrue(lines > 0);
    assertEquals(lines, new ObjectMapper().readTree(text(result)).path("takeOff").size());
  }

  @Test
  void aPlanIsReadBackToATenthOfAMillimetre() throws IOException {
    checkReadBack(ResultFixture.metric());
    checkReadBack(ResultFixture.usFeet());
  }

  @Test
  void aFolderWithoutAPlanIsSaidSo() {
    checkRefused("holds no results.json");
  }

  @Test
  void aBrokenPlanIsSaidSo() throws IOException {
    String good = text(ResultFixture.metric());
    checkRefused("is not JSON", good.substring(0, good.length() / 2));
    checkRefused(
        "is not of version 1", good.replace("\"schemaVersion\" : 1", "\"schemaVersion\" : 9"));
    checkRefused(
        "has no number 'invertM'",
        good.replaceFirst("\"invertM\" : 2", "\"invert\" : 2")
            .replace("\"invertM\"", "\"inverted\""));
    checkRefused("has an unknown 'span'", good.replace("\"bored\"", "\"tunnelled\""));
  }

  @Test
  void aRouteThatIsNotThereIsRefusedByName() throws IOException {
    write(text(ResultFixture.metric()));
    ResultsReader.Plan plan = ResultsReader.read(folder);
    try {
      plan.route("R9");
      throw new AssertionError("accepted");
    } catch (BadInputException e) {
      assertEquals("route R9: the plan has no such route; it has R1, R2", e.getMessage());
    }
  }

  private static void checkSaidOnce(JsonNode said) {
    Set<String> different = new HashSet<>();
    said.forEach(each -> assertTrue(different.add(each.toString()), each.toString()));
    assertTrue(!different.isEmpty());
  }

  private void checkReadBack(Result result) throws IOException {
    write(text(result));
    ResultsReader.Plan plan = ResultsReader.read(folder);
    assertEquals(result.site().drain(), plan.limits());
    assertEquals(result.site().crs().name(), plan.crsName());
    assertEquals(result.outlets().size(), plan.outlets().size());
    for (Route expected : result.routes()) {
      Route actual = plan.route(expected.id());
      assertEquals(expected.kind(), actual.kind());
      assertEquals(expected.cautions(), actual.cautions());
      assertEquals(expected.audit().checks().size(), actual.audit().checks().size());
      assertEquals(expected.branches().size(), actual.branches().size());
      assertEquals(expected.lengthM(), actual.lengthM(), 1e-4);
      for (int i = 0; i < expected.main().stations().size(); i++) {
        checkSame(expected.main().stations().get(i), actual.main().stations().get(i));
      }
    }
  }

  private static void checkSame(Station expected, Station actual) {
    assertEquals(expected.x(), actual.x(), 1e-4);
    assertEquals(expected.y(), actual.y(), 1e-4);
    assertEquals(expected.invertM(), actual.invertM(), 1e-4);
    assertEquals(expected.groundM(), actual.groundM(), 1e-4);
    assertEquals(expected.grade(), actual.grade(), 1e-6);
    assertEquals(expected.span(), actual.span());
  }

  private void checkRefused(String what, String json) throws IOException {
    write(json);
    checkRefused(what);
  }

  private void checkRefused(String what) {
    try {
      ResultsReader.read(folder);
    } catch (BadInputException e) {
      assertEquals(1, e.getMessage().lines().count(), e.getMessage());
      assertTrue(e.getMessage().contains(what), e.getMessage());
      return;
    }
    throw new AssertionError("accepted");
  }

  private void write(String json) throws IOException {
    Files.writeString(folder.resolve("results.json"), json);
  }

  private static void checkObeysSchema(Result result) throws IOException {
    assertEquals(List.of(), violations(text(result)));
  }

  private static List<String> violations(String json) throws IOException {
    try (InputStream schema = ResultsWriter.class.getResourceAsStream(ResultsWriter.SCHEMA)) {
      return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
          .getSchema(schema)
          .validate(json, InputFormat.JSON)
          .stream()
          .map(Object::toString)
          .toList();
    }
  }

  private static String text(Result result) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ResultsWriter.write(result, LayerSet.of(result).warnings(), out);
    return out.toString(StandardCharsets.UTF_8);
  }
}
