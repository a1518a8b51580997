package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;

import org.junit.jupiter.api.Test;
import org.yardfall.layer.ResultFolder;

/** A rehearsal that fails would go unseen: it only makes the real thing slower. */
class RehearsalTest {

  @Test
  void everySurfaceIsDrawnOnWithoutAFault() {
    assertDoesNotThrow(Rehearsal::draw);
    assertDoesNotThrow(ResultFolder::prepare);
  }
}
