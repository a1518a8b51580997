package org.yardfall.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class CleanTextTest {

  @Test
  void ordinaryTextIsLeftAlone() {
    checkClean(
        "Lot 7 \u2013 Br\u00FCcke \u6F22\u5B57 \uD83C\uDF33 \u202E <b>",
        "Lot 7 \u2013 Br\u00FCcke \u6F22\u5B57 \uD83C\uDF33 \u202E <b>");
  }

  @Test
  void whatNoFormatHoldsIsReplaced() {
    checkClean("a\0b", "a\uFFFDb");
    checkClean("a\uD800b", "a\uFFFDb");
    checkClean("a\uFFFFb", "a\uFFFDb");
    checkClean("a\r\n\tb", "a   b");
  }

  @Test
  void aFormulaIsMarkedAsText() {
    checkCell("=1+1", "'=1+1");
    checkCell("+1", "'+1");
    checkCell("-1", "'-1");
    checkCell("@SUM(A1)", "'@SUM(A1)");
    checkCell("\t=1", "' =1");
    checkCell("Lot 7", "Lot 7");
    checkCell("", "");
  }

  @Property(tries = 300, seed = "20261125")
  void aCutTextIsABeginningThatFits(@ForAll String raw, @ForAll @IntRange(max = 40) int bytes)
      throws CharacterCodingException {
    String text = CleanText.of(raw);
    String cut = CleanText.cut(text, bytes);
    assertTrue(text.startsWith(cut));
    int size = StandardCharsets.UTF_8.newEncoder().encode(CharBuffer.wrap(cut)).remaining();
    assertTrue(size <= bytes);
    if (cut.length() < text.length()) {
      String next = cut + Character.toString(text.codePointAt(cut.length()));
      assertTrue(next.getBytes(StandardCharsets.UTF_8).length > bytes, "could be longer");
    }
  }

  private static void checkClean(String text, String expected) {
    assertEquals(expected, CleanText.of(text));
  }

  private static void checkCell(String text, String expected) {
    assertEquals(expected, CleanText.cell(text));
  }
}
