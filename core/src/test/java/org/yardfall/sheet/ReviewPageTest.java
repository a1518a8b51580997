package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFixture;
import org.yardfall.site.UnitSystem;

class ReviewPageTest {

  @TempDir Path folder;

  @Test
  void nothingInTheDataIsMarkup() throws Exception {
    String page = write(ResultFixture.withIds(HostileText.ID));
    assertEquals(3, page.split("<script", -1).length - 1);
    assertEquals(3, page.split("</script", -1).length - 1);
    assertFalse(block(page).contains("<"));
    assertFalse(page.contains("<img src=x"));
    assertTrue(data(page).get("lot").asText().startsWith("=cmd|' /C x'!A1</script><script>"));
  }

  @Test
  void nothingIsLoadedFromElsewhere() throws Exception {
    String page = write(ResultFixture.metric());
    assertTrue(page.contains("default-src 'none'; script-src 'sha256-"));
    String skeleton = page.replaceAll("(?s)<script.*?</script>", "");
    assertFalse(Pattern.compile("(src|href)=\"(?!data:)").matcher(skeleton).find());
    assertFalse(page.contains("unsafe-inline"));
    assertFalse(Pattern.compile("url\\((?!#)").matcher(styles(page)).find());
  }

  @Test
  void thePageIsSmallAndTheSameEachTime() throws Exception {
    Path file = folder.resolve("a.html");
    ReviewPage.write(ResultFixture.usFeet(), UnitSystem.US, file);
    byte[] first = Files.readAllBytes(file);
    ReviewPage.write(ResultFixture.usFeet(), UnitSystem.US, file);
    assertArrayEquals(first, Files.readAllBytes(file));
    assertTrue(first.length < 5_000_000);
  }

  /** The fixture's raster begins 10 m west and south of the lot; its drain bends at (55, 45). */
  @Test
  void drainLotAndPicturesShareOneOrigin() throws Exception {
    JsonNode page = data(write(ResultFixture.metric()));
    JsonNode bend = page.at("/routes/0/lines/0/stations/2");
    assertEquals(65, bend.get("x").asDouble(), 1e-3);
    assertEquals(55, bend.get("y").asDouble(), 1e-3);
    assertEquals(499990, page.at("/origin/0").asDouble(), 1e-6);
    assertEquals(4982990, page.at("/origin/1").asDouble(), 1e-6);
    JsonNode relief = page.at("/pictures/0/bounds");
    assertEquals(0, relief.at("/0/0").asDouble(), 1e-9);
    assertEquals(80, relief.at("/1/0").asDouble(), 1e-9);
    assertEquals(70, relief.at("/1/1").asDouble(), 1e-9);
    for (JsonNode layer : page.get("layers")) {
      if (layer.get("id").asText().equals("lot")) {
        JsonNode corner = layer.at("/features/0/c/0/0");
        assertEquals(10, corner.get(0).asDouble(), 1e-3);
        assertEquals(10, corner.get(1).asDouble(), 1e-3);
      }
    }
  }

  @Test
  void lengthsAreReadInTheReadersUnits() throws Exception {
    JsonNode us = data(write(ResultFixture.metric()));
    assertEquals("ft", us.get("length").asText());
    assertTrue(us.at("/routes/0/facts").toString().contains("\"Length\",\"387.1 ft\""));
  }

  @Test
  void aSiteWithNothingFoundHasAPageToo() throws Exception {
    assertEquals(0, data(write(ResultFixture.empty())).get("routes").size());
  }

  /** A name read from right to left is isolated, so that the figures after it stay behind it. */
  @Test
  void aNameReadFromTheRightTurnsNothingElse() {
    Wording wording = new Wording(ResultFixture.withIds("\u05de\u05d2 14"), UnitSystem.US);
    assertEquals(
        "by parcel \u2068\u05de\u05d2 14\u2069, 10.8 ft²",
        wording.onPage("by parcel \u05de\u05d2 14, 1.00 m²"));
  }

  private String write(Result result) throws Exception {
    Path file = folder.resolve("review.html");
    ReviewPage.write(result, UnitSystem.US, file);
    return Files.readString(file);
  }

  private static String styles(String page) {
    return page.substring(page.indexOf("<style>"), page.indexOf("</style>"));
  }

  private static String block(String page) {
    Matcher block =
        Pattern.compile("<script id=\"data\" type=\"application/json\">(.*?)</script>")
            .matcher(page);
    assertTrue(block.find());
    return block.group(1);
  }

  private static JsonNode data(String page) throws Exception {
    return JsonMapper.builder().build().readTree(block(page));
  }
}
