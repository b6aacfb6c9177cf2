using SkiaSharp;

namespace RollRide.Plots;

/// <summary>Turns figures into PDF pages: the same page as <see cref="PngRenderer"/> draws, with its typeface embedded.</summary>
/// <remarks>While a page is made its plot models are in use: do not render one model on two threads at once.</remarks>
public static class PdfRenderer
{
    private const float PointsPerUnit = 72f / 96f;

    /// <summary>Renders figures, one a page, each page as large as its figure.</summary>
    /// <param name="title">Title of the document.</param>
    /// <param name="figures">The figures, at least one.</param>
    /// <returns>The bytes of a PDF file.</returns>
    /// <exception cref="InvalidOperationException">A plot cannot be drawn, or a picture is too small for its panels.</exception>
    public static byte[] Render(string title, params IReadOnlyList<Figure> figures)
    {
        ArgumentNullException.ThrowIfNull(figures);
        using var stream = new MemoryStream();
        // No dates: the same figures make the same bytes.
        using (var document = SKDocument.CreatePdf(stream, new SKDocumentPdfMetadata { Title = title, Creator = "RollRide", EncodingQuality = 100, RasterDpi = 300 }))
        {
            foreach (var figure in figures)
            {
                using var page = new Page(figure);
                page.Arrange();
                using var canvas = document.BeginPage((float)figure.Size.Width * PointsPerUnit, (float)figure.Size.Height * PointsPerUnit);
                using var context = new EmbeddedFontRenderContext { SkCanvas = canvas, DpiScale = PointsPerUnit };
                page.Draw(context);
                document.EndPage();
            }

            document.Close();
        }

        return stream.ToArray();
    }
}
