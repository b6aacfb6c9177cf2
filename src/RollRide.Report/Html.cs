using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Unicode;

namespace RollRide.Report;

/// <summary>A piece of HTML. Every text that is put into one is escaped on the way; only other pieces are taken as they are.</summary>
public readonly record struct Html
{
    private static readonly HtmlEncoder Encoder = HtmlEncoder.Create(UnicodeRanges.All);

    private Html(string markup) => Markup = markup;

    /// <summary>The markup.</summary>
    public string Markup => field ?? "";

    /// <summary>A piece made of markup with holes: <c>Html.Of($"&lt;p&gt;{name}&lt;/p&gt;")</c> escapes the name.</summary>
    /// <param name="markup">The markup and what goes into its holes.</param>
    public static Html Of(Writer markup) => new(markup.ToString());

    /// <summary>Markup that this program wrote itself, such as a picture.</summary>
    /// <param name="markup">The markup, which holds no text of a user that was not escaped.</param>
    public static Html Trusted(string markup) => new(markup);

    /// <summary>Pieces one after the other.</summary>
    /// <param name="pieces">The pieces.</param>
    public static Html Join(IEnumerable<Html> pieces) => new(string.Concat(pieces.Select(piece => piece.Markup)));

    /// <inheritdoc/>
    public override string ToString() => Markup;

    /// <summary>Puts a piece together.</summary>
    [InterpolatedStringHandler]
    public readonly ref struct Writer
    {
        private readonly StringBuilder _markup;

        /// <summary>Begins a piece.</summary>
        /// <param name="literalLength">Characters of markup.</param>
        /// <param name="formattedCount">Number of holes.</param>
        public Writer(int literalLength, int formattedCount) => _markup = new StringBuilder(literalLength + (16 * formattedCount));

        /// <summary>Adds markup.</summary>
        /// <param name="markup">The markup.</param>
        public void AppendLiteral(string markup) => _markup.Append(markup);

        /// <summary>Adds a piece.</summary>
        /// <param name="piece">The piece.</param>
        public void AppendFormatted(Html piece) => _markup.Append(piece.Markup);

        /// <summary>Adds a text, escaped.</summary>
        /// <param name="text">The text.</param>
        public void AppendFormatted(string? text) => _markup.Append(Encoder.Encode(text ?? ""));

        /// <summary>Adds a number.</summary>
        /// <param name="number">The number.</param>
        public void AppendFormatted(int number) => _markup.Append(number.ToString(CultureInfo.InvariantCulture));

        /// <inheritdoc/>
        public override string ToString() => _markup.ToString();
    }
}
