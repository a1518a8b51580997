package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFixture;
import org.yardfall.site.UnitSystem;

class MapPictureTest {

  @TempDir Path folder;

  @Test
  void theSameResultGivesTheSameBytes() throws Exception {
    write(ResultFixture.usFeet(), "a");
    write(ResultFixture.usFeet(), "b");
    assertArrayEquals(
        Files.readAllBytes(folder.resolve("a.png")), Files.readAllBytes(folder.resolve("b.png")));
  }

  /**
   * The picture shows the lot of 60 m by 50 m and a rim of 3.6 m, 1440 pixels wide. The bend of the
   * drain at (55, 45) is a white dot there: its middle, weighed by its brightness, lies within half
   * a pixel.
   */
  @Test
  void aBendOfTheDrainLiesWhereItBelongs() throws Exception {
    BufferedImage image = write(ResultFixture.metric(), "a");
    double perM = 1440 / 67.2;
    double x = (55 + 3.6) * perM;
    double y = (50 + 3.6 - 45) * perM;
    double sum = 0;
    double sumX = 0;
    double sumY = 0;
    for (int row = (int) y - 3; row <= y + 3; row++) {
      for (int col = (int) x - 3; col <= x + 3; col++) {
        double white = Math.max(0, (image.getRGB(col, row) & 0xFF) - 128);
        sum += white;
        sumX += white * (col + 0.5);
        sumY += white * (row + 0.5);
      }
    }
    assertEquals(x, sumX / sum, 0.5);
    assertEquals(y, sumY / sum, 0.5);
  }

  @Test
  void anythingCanBeDrawn() throws Exception {
    write(ResultFixture.empty(), "empty");
    write(ResultFixture.withIds(HostileText.ID), "hostile");
  }

  private BufferedImage write(Result result, String name) throws Exception {
    Path file = folder.resolve(name + ".png");
    MapPicture.png(result, UnitSystem.METRIC, file);
    return ImageIO.read(file.toFile());
  }
}
