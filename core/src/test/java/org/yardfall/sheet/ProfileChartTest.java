package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.NodeList;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFixture;
import org.yardfall.site.UnitSystem;

class ProfileChartTest {

  @TempDir Path folder;

  @Test
  void theSameResultGivesTheSameBytes() throws Exception {
    assertArrayEquals(svg(ResultFixture.metric(), "a"), svg(ResultFixture.metric(), "b"));
    ProfileChart.png(ResultFixture.metric(), "R1", UnitSystem.US, folder.resolve("a.png"));
    ProfileChart.png(ResultFixture.metric(), "R1", UnitSystem.US, folder.resolve("b.png"));
    assertArrayEquals(
        Files.readAllBytes(folder.resolve("a.png")), Files.readAllBytes(folder.resolve("b.png")));
    assertTrue(ImageIO.read(folder.resolve("a.png").toFile()).getWidth() > 1000);
  }

  @Test
  void theProfileSaysWhatItShows() throws Exception {
    String text = text(svg(ResultFixture.metric(), "a"));
    for (String word :
        new String[] {
          "R1 main line",
          "R1 branch 1",
          "vertical exaggeration",
          "ground",
          "water at the peak",
          "walk",
          "water main",
          "241.90",
          "draft for review, not for construction"
        }) {
      assertTrue(text.contains(word), word);
    }
  }

  @Test
  void namesFromTheDataCannotBreakTheXml() throws Exception {
    Result result = ResultFixture.withIds(HostileText.ID);
    assertEquals(0, parse(svg(result, "h")).getElementsByTagName("script").getLength());
  }

  @Test
  void aRouteThatIsNotThereIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> svg("R9"));
  }

  /** The ground's line falls 1 % along the route: 10 times exaggerated, 1 in 10 on the drawing. */
  @Test
  void theExaggerationStatedIsTheOneDrawn() throws Exception {
    String svg =
        new String(svg(ResultFixture.metric(), "a"), java.nio.charset.StandardCharsets.UTF_8);
    java.util.regex.Matcher stated =
        java.util.regex.Pattern.compile("exaggeration (\\d+)×").matcher(svg);
    assertTrue(stated.find());
    java.util.regex.Matcher pipe =
        java.util.regex.Pattern.compile("M([\\d.]+) ([\\d.]+) L([\\d.]+) ([\\d.]+) L").matcher(svg);
    boolean found = false;
    while (pipe.find()) {
      double run = number(pipe, 3) - number(pipe, 1);
      double drop = number(pipe, 4) - number(pipe, 2);
      found |= run > 100 && Math.abs(drop / run - 0.01 * Integer.parseInt(stated.group(1))) < 1e-3;
    }
    assertTrue(found, "no stretch of pipe falls as stated");
  }

  private static double number(java.util.regex.Matcher match, int group) {
    return Double.parseDouble(match.group(group));
  }

  private byte[] svg(String route) throws Exception {
    Path file = folder.resolve("x.svg");
    ProfileChart.svg(ResultFixture.metric(), route, UnitSystem.METRIC, file);
    return Files.readAllBytes(file);
  }

  private byte[] svg(Result result, String name) throws Exception {
    Path file = folder.resolve(name + ".svg");
    ProfileChart.svg(result, "R1", UnitSystem.METRIC, file);
    return Files.readAllBytes(file);
  }

  private static String text(byte[] svg) throws Exception {
    NodeList texts = parse(svg).getElementsByTagName("text");
    StringBuilder all = new StringBuilder();
    for (int i = 0; i < texts.getLength(); i++) {
      all.append(texts.item(i).getTextContent()).append('\n');
    }
    return all.toString();
  }

  private static Document parse(byte[] svg) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
    return factory.newDocumentBuilder().parse(new java.io.ByteArrayInputStream(svg));
  }
}
