package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class SheetFlowTest {

  private static final int WIDTH = 1100;
  private static final int HEIGHT = 500;

  /** Rows in three columns: on the last page no column is longer than another by more than one. */
  @Test
  void theColumnsOfTheLastPageEndAboutAsLow() {
    for (int rows = 1; rows <= 130; rows += 3) {
      SheetFlow flow = flow(rows);
      List<Integer> feet = feet(flow, flow.pages() - 1);
      for (int i = 1; i < 3; i++) {
        int shorter = feet.get(i - 1) - feet.get(i);
        assertTrue(shorter > -12, rows + " rows: " + feet);
        assertTrue(feet.get(i) == 0 || shorter < 25, rows + " rows: " + feet);
      }
    }
  }

  @Test
  void aPageIsFullBeforeTheNextBegins() {
    SheetFlow flow = flow(200);
    assertTrue(flow.pages() > 1);
    feet(flow, 0).forEach(foot -> assertTrue(foot > HEIGHT - 40, "ends at " + foot));
  }

  /** A panel across the page stands above the columns, which begin below it. */
  @Test
  void panelsComeFirst() {
    SheetFlow flow = new SheetFlow(new Rectangle2D.Double(0, 0, WIDTH, HEIGHT));
    flow.paragraph("a row");
    flow.across(200, (g, x, y) -> assertEquals(0, y));
    assertTrue(feet(flow, 0).get(0) > 200);
  }

  private static SheetFlow flow(int rows) {
    SheetFlow flow = new SheetFlow(new Rectangle2D.Double(0, 0, WIDTH, HEIGHT));
    flow.heading("Heading");
    for (int i = 0; i < rows; i++) {
      flow.paragraph("row " + i);
    }
    return flow;
  }

  /** The lowest drawn pixel of each of a page's three columns. */
  private static List<Integer> feet(SheetFlow flow, int page) {
    BufferedImage image = new BufferedImage(WIDTH, HEIGHT + 50, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, WIDTH, HEIGHT + 50);
    flow.draw(page, g);
    g.dispose();
    List<Integer> feet = new ArrayList<>();
    for (int column = 0; column < 3; column++) {
      int foot = 0;
      for (int y = 0; y < image.getHeight(); y++) {
        for (int x = column * WIDTH / 3 + 8; x < (column + 1) * WIDTH / 3; x++) {
          foot = (image.getRGB(x, y) & 0xFFFFFF) != 0xFFFFFF ? y : foot;
        }
      }
      feet.add(foot);
    }
    return feet;
  }
}
