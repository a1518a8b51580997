package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFixture;
import org.yardfall.site.UnitSystem;

class SummaryTextTest {

  private static final String ESCAPE = "\u001b[2J\u009b31m";

  /** What came with the data cannot steer the terminal, nor flood it. */
  @Test
  void textFromTheDataIsOnlyText() {
    Result hostile = ResultFixture.withIds(ESCAPE + HostileText.ID);
    Result result =
        ResultFixture.noting(hostile, "parcel " + ESCAPE + HostileText.ID + " overlaps another");
    for (String text :
        List.of(
            SummaryText.ofPlan(result, UnitSystem.METRIC),
            SummaryText.ofWater(result, UnitSystem.US))) {
      assertEquals(
          0,
          text.chars()
              .filter(c -> c != '\n')
              .filter(c -> Character.isISOControl(c) || Character.getType(c) == Character.FORMAT)
              .count());
      assertTrue(text.lines().allMatch(line -> line.length() <= 100), text);
    }
  }

  /**
   * Every sentence begins as one, also where the water may be more than the known ground brings.
   */
  @Test
  void sentencesBeginWithACapital() {
    String text =
        SummaryText.ofWater(ResultFixture.withIds("7"), UnitSystem.METRIC).replaceAll("\\s+", " ");
    assertTrue(text.contains("left standing after the storm"), text);
    assertFalse(Pattern.compile("[a-zm²³]\\. [a-z]").matcher(text).find(), text);
  }

  /** Which pipe and why, and what it all comes to. */
  @Test
  void thePipeIsSaidWithItsReasonAndItsPrice() {
    Result result = ResultFixture.withIds("7");
    String text = SummaryText.ofPlan(result, UnitSystem.METRIC).replaceAll("\\s+", " ");
    assertTrue(text.contains("smallest from the one planned on that carries its peak full"), text);
    assertTrue(text.contains("By the trade's rule of thumb"), text);
    assertTrue(
        text.contains("What is bought comes to " + PageRoutes.price(result.designs().get(0))),
        text);
  }
}
