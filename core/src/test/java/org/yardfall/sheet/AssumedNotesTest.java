package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.yardfall.site.Assumption;

class AssumedNotesTest {

  private static final String PRACTICE = "common practice, no source";

  @Test
  void keysOfOneSectionWithOneSourceAreOneNote() {
    List<AssumedNotes.Note> notes =
        notes(
            new Assumption("drain.min-cover", "6 in", PRACTICE),
            new Assumption("drain.max-depth", "4 ft", "29 CFR 1926.651(c)(2)"),
            new Assumption("drain.setback", "2 ft", PRACTICE));
    assertEquals(2, notes.size());
    assertEquals("drain: min-cover 6 in; setback 2 ft", notes.get(0).sentence());
    assertEquals("drain: max-depth 4 ft (29 CFR 1926.651(c)(2))", notes.get(1).sentence());
  }

  /** Whatever owns to no source stands apart; a source of which only a part does, does not. */
  @Test
  void whatHasNoSourceIsToldFromWhatHasOne() {
    checkPractice(true, "", PRACTICE);
    checkPractice(true, "often met in local rules", "often met in local rules; " + PRACTICE);
    checkPractice(true, "replace it", "assumed, no source; replace it");
    checkPractice(false, "R403.1.4; 45 degrees: " + PRACTICE, "R403.1.4; 45 degrees: " + PRACTICE);
  }

  private static void checkPractice(boolean practice, String source, String given) {
    AssumedNotes.Note note = notes(new Assumption("stone", "size 57", given)).get(0);
    assertEquals(practice, note.practice());
    assertEquals(source, note.source());
  }

  private static List<AssumedNotes.Note> notes(Assumption... assumptions) {
    return AssumedNotes.of(List.of(assumptions), UnaryOperator.identity());
  }
}
