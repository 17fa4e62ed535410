using System.Text;
using Shimwright.Bench.Photos;
using Shimwright.Testing;
using Shimwright.Testing.Pictures;
using StbImageSharp;

namespace Shimwright.Bench.Tests.Photos;

/// <summary>What is kept of a picture that somebody sends.</summary>
public class ArrivedPictureTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void Photo_HeldAnyWay_IsUpright(int orientation)
    {
        Picture photo = Taken(ArrivedPicture.Photo(SamplePicture.Jpeg(80, 48, orientation)));
        Assert.Equal((80, 48), (photo.Width, photo.Height));
        foreach (byte[] file in new[] { photo.Content, photo.Thumb })
        {
            var image = ImageResult.FromMemory(file, ColorComponents.RedGreenBlue);
            foreach ((bool left, bool top) in new[] { (true, true), (false, true), (true, false), (false, false) })
            {
                int at = (((top ? 12 : 36) * image.Width) + (left ? 20 : 60)) * 3;
                byte[] expected = SamplePicture.ColourAt(left, top);
                Assert.All(Enumerable.Range(0, 3), c => Assert.InRange(image.Data[at + c] - expected[c], -40, 40));
            }
        }
    }

    [Fact]
    public void Photo_LargeOne_IsMadeSmallerAndKeepsItsShape()
    {
        Picture photo = Taken(ArrivedPicture.Photo(SamplePicture.Jpeg(4000, 1500)));
        Assert.Equal((2000, 750), (photo.Width, photo.Height));
        var thumb = ImageResult.FromMemory(photo.Thumb, ColorComponents.RedGreenBlue);
        Assert.Equal((320, 120), (thumb.Width, thumb.Height));
        Assert.True(photo.IsSound());
    }

    [Fact]
    public void Pictures_OfAnyKind_CarryNothingButThePicture()
    {
        foreach (byte[] file in new[] { SamplePicture.Jpeg(), SamplePicture.Png() })
        {
            Assert.Contains(SamplePicture.Secret, Encoding.Latin1.GetString(file), StringComparison.Ordinal);
            foreach (Picture kept in new[] { Taken(ArrivedPicture.Photo(file)), Taken(ArrivedPicture.Logo(file)) })
            {
                string bytes = Encoding.Latin1.GetString(kept.Content) + Encoding.Latin1.GetString(kept.Thumb);
                Assert.DoesNotContain(SamplePicture.Secret, bytes, StringComparison.Ordinal);
                Assert.DoesNotContain("Exif", bytes, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public void Logo_PngWithHoles_LiesOnWhite()
    {
        Picture logo = Taken(ArrivedPicture.Logo(SamplePicture.Png(1200, 300)));
        Assert.Equal((Picture.Png, 600, 150), (logo.ContentType, logo.Width, logo.Height));
        var image = ImageResult.FromMemory(logo.Content, ColorComponents.RedGreenBlue);
        Assert.Equal([255, 0, 0], image.Data[..3]);
        Assert.Equal([255, 255, 255], image.Data[(599 * 3)..(600 * 3)]);
    }

    /// <summary>What a file declares is believed only where it is harmless.</summary>
    [Fact]
    public void Photo_WhatCannotBeTaken_IsRefusedInWords()
    {
        byte[] cut = SamplePicture.Jpeg()[..^200];
        Assert.Contains("neither a JPEG nor a PNG", Refused("GIF89a"u8.ToArray()), StringComparison.Ordinal);
        Assert.Contains("no picture was chosen", Refused([]), StringComparison.Ordinal);
        Assert.Contains("ends in the middle", Refused(cut), StringComparison.Ordinal);
        Assert.Contains("8000 by 7000", Refused(SamplePicture.PngOf(8000, 7000, 1000)), StringComparison.Ordinal);
        Assert.Contains("damaged", Refused(SamplePicture.PngOf(100, 100, 300 << 20)), StringComparison.Ordinal);
        Assert.Contains("damaged", Refused(SamplePicture.PngOf(100, 100, 50)), StringComparison.Ordinal);
        Assert.Contains("allowed are 10 MB", Refused(new byte[ArrivedPicture.LargestPhoto + 1]), StringComparison.Ordinal);
        Assert.Contains("allowed are 1 MB", ArrivedPicture.Logo(new byte[ArrivedPicture.LargestLogo + 1]).Problem!.ToString(), StringComparison.Ordinal);
    }

    /// <summary>Spoilt files end in a picture or in words, and take no more memory than the largest honest one.</summary>
    [Fact, Long]
    public void Photo_SpoiltFiles_EndInAPictureOrInWords()
    {
        Random chance = new(20261129);
        byte[][] files = [SamplePicture.Jpeg(200, 150, 6), SamplePicture.Png(), SamplePicture.Jpeg(33, 17, 3, 40)];
        int taken = 0, refused = 0;
        long before = GC.GetTotalAllocatedBytes();
        int cases = Effort.Cases(1500, 60000);
        for (int n = 0; n < cases; n++)
        {
            byte[] file = [.. files[n % files.Length]];
            if (n % 3 == 0)
            {
                file = file[..chance.Next(1, file.Length)];
            }

            for (int flips = chance.Next(1, 12); flips > 0; flips--)
            {
                file[chance.Next(file.Length)] ^= (byte)(1 << chance.Next(8));
            }

            ArrivedPicture arrived = ArrivedPicture.Photo(file);
            Assert.True(arrived.Picture is null != (arrived.Problem is null));
            _ = arrived.Picture is null ? refused++ : taken++;
            Assert.True(arrived.Picture?.IsSound() ?? true);
        }

        Assert.True(taken > cases / 50 && refused > cases / 4, $"{taken} taken, {refused} refused");
        // A header that was spoilt may declare a large picture; most do not.
        Assert.InRange((GC.GetTotalAllocatedBytes() - before) / cases, 0, 16 << 20);
        Assert.InRange(Environment.WorkingSet, 0, 2L << 30);
    }

    private static Picture Taken(ArrivedPicture arrived)
    {
        Assert.Null(arrived.Problem);
        return arrived.Picture!;
    }

    private static string Refused(byte[] file)
    {
        ArrivedPicture arrived = ArrivedPicture.Photo(file);
        Assert.Null(arrived.Picture);
        return $"{arrived.Problem!.Found}; {arrived.Problem.Allowed}";
    }
}
