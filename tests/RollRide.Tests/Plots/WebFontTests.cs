using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class WebFontTests
{
    [Theory]
    [InlineData(PlotFont.RegularFile)]
    [InlineData(PlotFont.BoldFile)]
    public void Pack_every_table_kept_unpacks_to_the_table_of_the_font_file(string file)
    {
        // Header and directory as the W3C Recommendation "WOFF File Format 1.0" (2012, sections 3 to 5, from memory) lays them out.
        var font = PlotFont.FileBytes(file);
        var woff = WebFont.Pack(font);

        Assert.Equal("wOFF", Encoding.ASCII.GetString(woff, 0, 4));
        Assert.Equal("OTTO", Encoding.ASCII.GetString(woff, 4, 4));
        Assert.Equal(woff.Length, (int)Word(woff, 8));
        var tables = BinaryPrimitives.ReadUInt16BigEndian(woff.AsSpan(12));
        var unpackedSize = 12 + (16 * tables);
        for (var i = 0; i < tables; i++)
        {
            var entry = woff.AsSpan(44 + (20 * i));
            var tag = Encoding.ASCII.GetString(entry[..4]);
            var (offset, packed, length) = ((int)Word(entry, 4), (int)Word(entry, 8), (int)Word(entry, 12));
            Assert.Equal(0, offset % 4);
            Assert.Equal(Table(font, tag), Unpack(woff.AsSpan(offset, packed), length));
            unpackedSize += (length + 3) / 4 * 4;
        }

        Assert.Equal(unpackedSize, (int)Word(woff, 16));
        Assert.True(woff.Length < font.Length / 2, "The packed font is not much smaller than the file.");
    }

    private static uint Word(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt32BigEndian(bytes[at..]);

    private static byte[] Unpack(ReadOnlySpan<byte> packed, int length)
    {
        if (packed.Length == length)
            return packed.ToArray();
        using var zlib = new ZLibStream(new MemoryStream(packed.ToArray()), CompressionMode.Decompress);
        var table = new byte[length];
        zlib.ReadExactly(table);
        return table;
    }

    private static byte[] Table(byte[] font, string tag)
    {
        for (var record = 12; ; record += 16)
        {
            if (Encoding.ASCII.GetString(font, record, 4) == tag)
                return font.AsSpan((int)Word(font, record + 8), (int)Word(font, record + 12)).ToArray();
        }
    }
}
