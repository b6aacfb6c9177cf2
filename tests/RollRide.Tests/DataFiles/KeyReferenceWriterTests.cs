using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class KeyReferenceWriterTests
{
    [Fact]
    public void Write_has_a_table_for_each_record()
    {
        const string Expected =
            """
            ## ExampleFile

            An example of a whole file.

            | key | type | required or default | accepted | meaning |
            |---|---|---|---|---|
            | `title` | text | required |  | What the file is about. |
            | `body` | [ExampleBody](#examplebody) | required |  | The body. |
            | `layouts` | list of [ExampleLayout](#examplelayout) | required | 1 to 3 of them | Layouts to compare. |
            | `stops` | named [ExampleSpring](#examplespring) | optional |  | Stops by name. |
            | `solver` | [ExampleSolver](#examplesolver) | `{"steps":100,"dense":false,"tolerance":1E-06}` |  | Settings of the solver. |

            ## ExampleBody

            | key | type | required or default | accepted | meaning |
            |---|---|---|---|---|
            | `mass_kg` | number | required | above 0 | Mass of the body. |
            | `track_mm` | number | required | from 500 to 3000 | Distance between the wheels. |
            | `offset_mm` | number | `0` | above -1000 and below 1000 | Offset of the centre of gravity, left positive. |

            ## ExampleLayout

            | key | type | required or default | accepted | meaning |
            |---|---|---|---|---|
            | `name` | text | required |  | Name of the layout. |
            | `side` | name | `"rightHand"` | `leftHand`, `rightHand` | Side of the damper. |
            | `spring` | [ExampleSpring](#examplespring) | optional |  | The spring \| in either form. |

            ## ExampleSpring

            A spring.

            Give exactly one of `rate_N_per_mm`, `points`.

            Give at most one of `free_length_mm`, `preload_N`.

            | key | type | required or default | accepted | meaning |
            |---|---|---|---|---|
            | `rate_N_per_mm` | number | optional | at least 0 | Rate. |
            | `points` | list of list of number | optional | at least 2 of them | Pairs of deflection and force. |
            | `free_length_mm` | number | optional | above 0 | Free length. |
            | `preload_N` | number | optional |  | Preload. |

            ## ExampleSolver

            | key | type | required or default | accepted | meaning |
            |---|---|---|---|---|
            | `steps` | whole number | `100` | from 1 to 1000 | Most steps. |
            | `dense` | true or false | `false` |  | Whether to keep every step. |
            | `tolerance` | number | `1E-06` | above 0 and at most 0.1 | Relative tolerance. |

            """;
        Assert.Equal(Expected, KeyReferenceWriter.Write(typeof(ExampleFileDto)));
    }
}
