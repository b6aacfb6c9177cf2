using System.Text;
using CsCheck;

namespace RollRide.Tests.DataFiles;

/// <summary>Valid texts with a few bytes replaced, removed, repeated or inserted.</summary>
internal static class Damage
{
    // Bytes that mean something in JSON and CSV come up more often than others.
    private const string Meaningful = "{}[]:,\"#/*\\\n\r .-+eE0159ntfu;\0";

    private static readonly Gen<byte> AnyByte =
        Gen.OneOf(Gen.Byte, Gen.Int[0, Meaningful.Length - 1].Select(i => (byte)Meaningful[i]));

    public static Gen<byte[]> Of(string valid)
    {
        var place = Gen.Double[0, 1];
        return Gen.Select(place, Gen.Int[0, 3], AnyByte, Gen.Int[1, 12]).List[1, 4].Select(changes =>
        {
            var bytes = Encoding.UTF8.GetBytes(valid).ToList();
            foreach (var (at, kind, value, length) in changes)
            {
                var start = (int)(at * Math.Max(0, bytes.Count - 1));
                var count = Math.Min(length, bytes.Count - start);
                if (kind == 0 && count > 0) bytes[start] = value;
                else if (kind == 1) bytes.RemoveRange(start, count);
                else if (kind == 2) bytes.InsertRange(start, bytes.GetRange(start, count));
                else bytes.Insert(start, value);
            }

            return bytes.ToArray();
        });
    }
}
