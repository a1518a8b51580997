package org.yardfall.site;

import java.util.List;
import java.util.stream.Collectors;

/** The input cannot be used; every {@link Problem} found is listed, each with its mend. */
public class BadInputException extends RuntimeException {

  private final transient List<Problem> problems;

  /** The input is unusable for the given reasons, at least one. */
  public BadInputException(List<Problem> problems) {
    super(problems.stream().map(Problem::line).collect(Collectors.joining(System.lineSeparator())));
    this.problems = List.copyOf(problems);
  }

  /** The input is unusable for one reason. */
  public BadInputException(String source, String what, String mend) {
    this(List.of(new Problem(source, what, mend)));
  }

  /** What is wrong, in the order found. */
  public List<Problem> problems() {
    return problems;
  }
}
