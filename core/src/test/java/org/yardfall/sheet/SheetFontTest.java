package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

class SheetFontTest {

  private static final String ALEF = "\u05d0";
  private static final String BET = "\u05d1";

  @Test
  void whatNoFontHoldsIsMarked() {
    assertEquals("lot " + SheetFont.MISSING, SheetFont.drawable("lot \uDBFF\uDFFD", 20));
  }

  @Test
  void marksOfDirectionAreDropped() {
    assertEquals("abc", SheetFont.drawable("a\u202Eb\u200Fc", 20));
  }

  /** Hebrew, which the sheet's font holds, is read from the right: the first letter lies there. */
  @Test
  void aNameReadFromTheRightRunsFromTheRight() {
    assertEquals(ALEF + BET, SheetFont.drawable(ALEF + BET, 20));
    int[] name = drawn(g -> SheetFont.draw(g, ALEF + BET, 20, 10, 30));
    int[] letters =
        drawn(
            g -> {
              SheetFont.draw(g, BET, 20, 10, 30);
              SheetFont.draw(g, ALEF, 20, 10 + SheetFont.width(BET, 20), 30);
            });
    assertTrue(ink(name) > 50);
    assertArrayEquals(letters, name);
  }

  /** Where the machine has a font for it, a Chinese name is drawn, else it is marked. */
  @Test
  void aNameInAnotherScriptComesFromTheMachinesFonts() {
    String name = "\u6c34\u8def";
    boolean held = new Font(Font.SANS_SERIF, Font.PLAIN, 12).canDisplayUpTo(name) < 0;
    assertEquals(held ? name : SheetFont.MISSING.repeat(2), SheetFont.drawable(name, 20));
    double width = SheetFont.width(SheetFont.drawable(name, 20), 20);
    int[] picture = drawn(g -> SheetFont.draw(g, SheetFont.drawable(name, 20), 20, 10, 30));
    assertTrue(ink(picture) > 50);
    assertTrue(width > 15 && width < 60, () -> "width " + width);
  }

  private static int[] drawn(Consumer<Graphics2D> drawing) {
    BufferedImage image = new BufferedImage(80, 40, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setColor(Color.WHITE);
    drawing.accept(g);
    g.dispose();
    return ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
  }

  private static long ink(int[] pixels) {
    return java.util.Arrays.stream(pixels).filter(p -> p != 0xFF000000 && p != 0).count();
  }
}
