namespace RollRide.DataFiles;

/// <summary>Marks a key whose text names another file, counted from the folder of this one.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class FileNameAttribute : Attribute;
