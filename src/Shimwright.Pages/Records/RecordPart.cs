using Shimwright.Bench.Photos;

namespace Shimwright.Pages.Records;

/// <summary>A part of a record. The page and the PDF are made of the same parts, so that they cannot say different things.</summary>
public abstract record RecordPart;

/// <summary>The workshop at the head.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Lines">Its address.</param>
/// <param name="Logo">Its logo, or null.</param>
public sealed record RecordHead(string Name, IReadOnlyList<string> Lines, RecordPicture? Logo) : RecordPart;

/// <summary>What the record is of.</summary>
public sealed record RecordTitle(string Text) : RecordPart;

/// <summary>The outcome in a sentence or two.</summary>
public sealed record RecordSummary(string Text) : RecordPart;

/// <summary>The heading of what follows.</summary>
public sealed record RecordHeading(string Text) : RecordPart;

/// <summary>A paragraph; its lines stay lines.</summary>
public sealed record RecordText(string Text) : RecordPart;

/// <summary>Names and what there is to say of each.</summary>
public sealed record RecordFacts(IReadOnlyList<(string Name, string Words)> Facts) : RecordPart;

/// <summary>A list of sentences.</summary>
public sealed record RecordList(IReadOnlyList<string> Items) : RecordPart;

/// <summary>A table with a line for each valve.</summary>
/// <param name="Caption">What its numbers mean.</param>
/// <param name="Columns">The heads of its columns.</param>
/// <param name="Lines">Its lines, a cell for each column.</param>
public sealed record RecordTable(string Caption, IReadOnlyList<string> Columns, IReadOnlyList<RecordLine> Lines) : RecordPart;

/// <summary>A line of a table.</summary>
/// <param name="Cells">Its cells; each is what counts and, in small letters, what goes with it.</param>
/// <param name="Fails">Whether it has to be seen that the valve does not pass.</param>
public sealed record RecordLine(IReadOnlyList<(string Words, string Small)> Cells, bool Fails = false);

/// <summary>Photos, each with its words.</summary>
public sealed record RecordPhotos(IReadOnlyList<RecordPhoto> Photos) : RecordPart;

/// <summary>A photo with its words.</summary>
public sealed record RecordPhoto(RecordPicture Picture, string Words);

/// <summary>Lines to sign on.</summary>
public sealed record RecordSignatures(IReadOnlyList<string> Who) : RecordPart;

/// <summary>A picture: where a page finds it, and the picture itself where it is printed.</summary>
/// <param name="Address">The address.</param>
/// <param name="Kept">The picture; null on a page, which lets the browser fetch it.</param>
public sealed record RecordPicture(string Address, Picture? Kept);
