package org.yardfall.site;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/** Gathers what is wrong with an input, so that all of it is said at once. */
final class Problems {

  private final List<Problem> found = new ArrayList<>();

  void add(String source, String what, String mend) {
    add(new Problem(source, what, mend));
  }

  /** The result of a step, or empty if the input spoilt it; the problems are kept. */
  <T> Optional<T> attempt(Supplier<T> step) {
    try {
      return Optional.of(step.get());
    } catch (BadInputException e) {
      e.problems().forEach(this::add);
      return Optional.empty();
    }
  }

  private void add(Problem problem) {
    if (!found.contains(problem)) {
      found.add(problem);
    }
  }

  boolean any() {
    return !found.isEmpty();
  }

  /**
   * Ends the reading if anything is wrong.
   *
   * @throws BadInputException with every problem gathered
   */
  void throwIfAny() {
    if (any()) {
      throw new BadInputException(found);
    }
  }
}
