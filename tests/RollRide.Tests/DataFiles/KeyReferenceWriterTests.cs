using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class KeyReferenceWriterTests
{
    [Fact]
    public void Write_has_a_table_for_each_record_and_small_ones_of_one_key_in_that_of_the_key()
    {
        const string Expected =
            """
            ## ExampleFile

            An example of a whole file.

            | key | value | meaning |
            |---|---|---|
            | `title` | required: text | What the file is about. |
            | `body` | required: the keys below | The body. |
            | `body.mass_kg` | required: above 0 | Mass of the body. |
            | `body.track_mm` | required: from 500 to 3000 | Distance between the wheels. |
            | `body.offset_mm` | above -1000 and below 1000; default `0` | Offset of the centre of gravity, left positive. |
            | `layouts` | required: list of [ExampleLayout](#examplelayout), 1 to 3 of them | Layouts to compare. |
            | `stops` | named [ExampleSpring](#examplespring) | Stops by name. |
            | `solver` | the keys below | Settings of the solver. |
            | `solver.steps` | whole number, from 1 to 1000; default `100` | Most steps. |
            | `solver.dense` | true or false; default `false` | Whether to keep every step. |
            | `solver.tolerance` | above 0 and at most 0.1; default `1E-06` | Relative tolerance. |

            ## ExampleLayout

            | key | value | meaning |
            |---|---|---|
            | `name` | required: text | Name of the layout. |
            | `side` | `leftHand`, `rightHand`; default `"rightHand"` | Side of the damper. |
            | `spring` | [ExampleSpring](#examplespring) | The spring \| in either form. |

            ## ExampleSpring

            A spring. Give exactly one of `rate_N_per_mm`, `points`. Give at most one of `free_length_mm`, `preload_N`.

            | key | value | meaning |
            |---|---|---|
            | `rate_N_per_mm` | at least 0 | Rate. |
            | `points` | list of list of number, at least 2 of them | Pairs of deflection and force. |
            | `free_length_mm` | above 0 | Free length. |
            | `preload_N` | number | Preload. |

            """;
        Assert.Equal(Expected, KeyReferenceWriter.Write(typeof(ExampleFileDto)));
    }
}
