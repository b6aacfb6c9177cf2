using System.Buffers.Binary;
using System.IO.Compression;

namespace RollRide.Plots;

/// <summary>The typeface of figures for a page of HTML, carried in the page itself.</summary>
/// <remarks>
/// The font files are packed as WOFF (W3C Recommendation "WOFF File Format 1.0", 2012, from memory): the tables of the font file, each
/// compressed with zlib. The tables for kerning and alternates are left out, as figures are set without them.
/// </remarks>
public static class WebFont
{
    private const int HeaderSize = 44;
    private const int EntrySize = 20;
    private static readonly HashSet<string> LeftOut = ["GPOS", "GSUB", "GDEF"];
    private static readonly Lazy<string> Written = new(() => Rule(PlotFont.RegularFile, "400") + Rule(PlotFont.BoldFile, "700"));

    /// <summary>Name of the family in <see cref="Rules"/>.</summary>
    public const string Family = "RollRide Inter";

    /// <summary>The style rules that bring the typeface in both weights, some 300 kB.</summary>
    public static string Rules => Written.Value;

    /// <summary>Packs an OpenType font file.</summary>
    /// <param name="font">The bytes of the font file.</param>
    internal static byte[] Pack(ReadOnlySpan<byte> font)
    {
        const int firstRecord = 12;
        const int recordSize = 16;
        var tables = new List<(uint Tag, uint Checksum, byte[] Packed, int Length)>();
        for (var i = 0; i < BinaryPrimitives.ReadUInt16BigEndian(font[4..]); i++)
        {
            var record = font.Slice(firstRecord + i * recordSize, recordSize);
            if (LeftOut.Contains(System.Text.Encoding.ASCII.GetString(record[..4])))
                continue;
            var table = font.Slice((int)BinaryPrimitives.ReadUInt32BigEndian(record[8..]), (int)BinaryPrimitives.ReadUInt32BigEndian(record[12..]));
            tables.Add((BinaryPrimitives.ReadUInt32BigEndian(record), BinaryPrimitives.ReadUInt32BigEndian(record[4..]), Compress(table), table.Length));
        }

        var size = HeaderSize + tables.Count * EntrySize + tables.Sum(table => Padded(table.Packed.Length));
        var woff = new byte[size];
        var fields = new BigEndianFields(woff);
        fields.Add("wOFF"u8);
        fields.Add(font[..4]);
        fields.Add((uint)size);
        fields.Add((ushort)tables.Count);
        fields.Add((ushort)0);
        fields.Add((uint)(firstRecord + recordSize * tables.Count + tables.Sum(table => Padded(table.Length)))); // size when unpacked
        fields.Add(0x0001_0000u); // version of the file
        for (var i = 0; i < 5; i++)
            fields.Add(0u); // no metadata, no private data
        var offset = HeaderSize + tables.Count * EntrySize;
        foreach (var (tag, checksum, packed, length) in tables)
        {
            fields.Add(tag);
            fields.Add((uint)offset);
            fields.Add((uint)packed.Length);
            fields.Add((uint)length);
            fields.Add(checksum);
            packed.CopyTo(woff, offset);
            offset += Padded(packed.Length);
        }

        return woff;
    }

    private static string Rule(string file, string weight) =>
        $"@font-face{{font-family:\"{Family}\";font-weight:{weight};src:url(data:font/woff;base64,{Convert.ToBase64String(Pack(PlotFont.FileBytes(file)))}) format(\"woff\")}}\n";

    /// <summary>The table in zlib's format; as it is where that would not make it smaller.</summary>
    private static byte[] Compress(ReadOnlySpan<byte> table)
    {
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.SmallestSize))
            zlib.Write(table);
        var bytes = packed.ToArray();
        return bytes.Length < table.Length ? bytes : table.ToArray();
    }

    private static int Padded(int length) => (length + 3) / 4 * 4;

    /// <summary>Writes fields one after the other, the highest byte first.</summary>
    private ref struct BigEndianFields(Span<byte> target)
    {
        private Span<byte> _rest = target;

        public void Add(ReadOnlySpan<byte> bytes)
        {
            bytes.CopyTo(_rest);
            _rest = _rest[bytes.Length..];
        }

        public void Add(uint value)
        {
            BinaryPrimitives.WriteUInt32BigEndian(_rest, value);
            _rest = _rest[4..];
        }

        public void Add(ushort value)
        {
            BinaryPrimitives.WriteUInt16BigEndian(_rest, value);
            _rest = _rest[2..];
        }
    }
}
